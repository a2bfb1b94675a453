/* SPDX-License-Identifier: MIT */
/* All that belongs to the lifter and the gym, not to one set-up: body, limits, strength, equipment.
 */
#ifndef PLUMBAR_LIFTER_H
#define PLUMBAR_LIFTER_H

#include <plumbar/body.h>

/* Joints that carry a net moment in the sagittal plane, in the order of every array of five. */
#define PLUMB_JOINT_LIST(X)                                                                        \
    X(ankle)                                                                                       \
    X(knee)                                                                                        \
    X(hip)                                                                                         \
    X(back)                                                                                        \
    X(shoulder)

typedef enum PlumbJoint {
#define X(name) PLUMB_JOINT_##name,
    PLUMB_JOINT_LIST(X)
#undef X
        PLUMB_JOINT_COUNT
} PlumbJoint;

const char *plumb_joint_name(PlumbJoint joint);

/* Motions with a limit; the greatest angle each, rad. Rows of anthropometry/limits.csv. The last is
 * none of a joint: as far from the trunk auto lets the upper arm go at the touch of a press. */
#define PLUMB_LIMIT_LIST(X)                                                                        \
    X(ankle_dorsiflexion)                                                                          \
    X(knee_flexion)                                                                                \
    X(hip_flexion)                                                                                 \
    X(hip_extension)                                                                               \
    X(hip_abduction)                                                                               \
    X(hip_external_rotation)                                                                       \
    X(hip_internal_rotation)                                                                       \
    X(shoulder_flexion)                                                                            \
    X(shoulder_external_rotation)                                                                  \
    X(elbow_flexion)                                                                               \
    X(press_abduction)

typedef enum PlumbLimit {
#define X(name) PLUMB_LIMIT_##name,
    PLUMB_LIMIT_LIST(X)
#undef X
        PLUMB_LIMIT_COUNT
} PlumbLimit;

/* The list begins with the motions of the legs, which a pose of the legs and trunk decides. */
enum { PLUMB_LEG_LIMIT_COUNT = PLUMB_LIMIT_shoulder_flexion };

const char *plumb_limit_name(PlumbLimit limit);
const char *plumb_limit_source(PlumbLimit limit);
double plumb_limit_sd_rad(PlumbLimit limit); /* spread of the table's figure between people */

typedef struct PlumbEquipment {
    double bar_mass_kg;
    double shaft_diameter_m;
    double ring_spacing_m; /* between the ring marks */
    double knurl_start_m;  /* between the inner ends of the hand knurling */
    double knurl_stop_m;   /* between its outer ends */
    double disc_diameter_m;
} PlumbEquipment;

typedef struct PlumbLifter {
    PlumbBody body;
    double limit_rad[PLUMB_LIMIT_COUNT];
    bool limit_entered[PLUMB_LIMIT_COUNT]; /* the lifter's own test, not the table */
    double strength[PLUMB_JOINT_COUNT];    /* multiplier of each joint's capacity, default 1 */
    bool strength_entered;
    PlumbEquipment equipment;
} PlumbLifter;

/* Limits of the sex from anthropometry/limits.csv, strength 1, equipment of
 * anthropometry/equipment.csv. body is copied. */
PlumbLifter plumb_lifter_default(const PlumbBody *body);

#endif
