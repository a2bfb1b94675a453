/* SPDX-License-Identifier: MIT */
/* The frame of a pressing arm and its elbow's swivel with exact derivatives. */
#ifndef PLUMB_MODEL_ARM_JET_H
#define PLUMB_MODEL_ARM_JET_H

#include "model/jet.h"

/* n, e1 and e2 of PlumbArm. */
typedef struct ArmFrame {
    Jet3 n;
    Jet3 e1;
    Jet3 e2;
    Jet level; /* share of the elbow's circle along x: sqrt(1 - n_x²) */
} ArmFrame;

/* way: from the shoulder to the grip, not straight outwards. */
static inline ArmFrame arm_frame(Jet3 way, Jet distance)
{
    ArmFrame f;
    f.n = jet3_times(way, jet_inverse(distance));
    const Jet3 out = jet3_fixed(vec3(0.0, 0.0, 1.0));
    const Jet3 side = jet3_sub(out, jet3_times(f.n, f.n.z));
    f.e1 = jet3_times(side, jet_inverse(jet3_length(side)));
    f.e2 = jet3_cross(f.n, f.e1);
    if (f.e2.x.v < 0.0) {
        f.e2 = jet3_times(f.e2, jet_fixed(-1.0));
    }
    f.level = jet_sqrt(jet_sub(jet_fixed(1.0), jet_mul(f.n.x, f.n.x)));
    return f;
}

/* cos σ and sin σ of σ = φ - α, as plumb_arm_swivel has it: share = cos α, the elbow's wish along x
 * over what its circle reaches, within -1 and 1. */
static inline void arm_swivel(const ArmFrame *f, Jet share, Jet *cosine, Jet *sine)
{
    const Jet square = jet_sub(jet_fixed(1.0), jet_mul(share, share));
    const Jet rest = square.v > 0.0 ? jet_sqrt(square) : jet_fixed(0.0);
    const Jet c = jet_div(f->e1.x, f->level);
    const Jet s = jet_div(f->e2.x, f->level);
    *cosine = jet_add(jet_mul(c, share), jet_mul(s, rest));
    *sine = jet_sub(jet_mul(s, share), jet_mul(c, rest));
}

#endif
