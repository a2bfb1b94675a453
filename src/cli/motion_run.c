/* SPDX-License-Identifier: MIT */
/* plumbar path --time for every lift: solved, then printed as text, JSON or CSV. */
#include "motion_out.h"

#include "command.h"

#include <stdlib.h>

/* Every element is a full answer at rest in that pose, with `motion` beside it. */
static void print_json(const PlumbCliMotionForm *form, const PlumbCliMotion *motion,
                       PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson body = plumb_json_begin(&failed);
    const PlumbJson gym = plumb_json_begin(&failed);
    plumb_json_body(body, &motion->request->lifter.body);
    plumb_json_lifter(gym, &motion->request->lifter);
    const PlumbJsonFrame frame = {body.object, gym.object};
    plumb_output_string(out, "[");
    for (int i = 0; i < motion->count || i == 0; i++) {
        const PlumbJson json = plumb_json_begin(&failed);
        form->json(motion, i, &frame, json);
        plumb_output_string(out, i > 0 ? ",\n" : "\n");
        plumb_json_print(json, 0, out);
    }
    plumb_output_string(out, "\n]\n");
    json_decref(body.object);
    json_decref(gym.object);
}

static void print_csv(const PlumbCliMotionForm *form, const PlumbCliMotion *motion,
                      PlumbCliOutput *out)
{
    PlumbCsv csv = {.out = out};
    form->csv_head(&csv);
    plumb_csv_row_end(&csv);
    for (int i = 0; i < motion->count; i++) {
        form->csv_row(motion, i, &csv);
        plumb_csv_row_end(&csv);
    }
}

static PlumbCliExit print(const PlumbCliArgs *args, const PlumbCliMotionForm *form,
                          const PlumbCliMotion *motion, PlumbCliFault *fault)
{
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(form, motion, &out);
    } else if (args->csv) {
        print_csv(form, motion, &out);
    } else {
        form->text(motion, args->units, &out);
    }
    const bool held = motion->count > 0 && motion->held;
    return plumb_cli_finish(&out, held ? PLUMB_EXIT_ANSWERED : PLUMB_EXIT_NO_POSE, fault);
}

PlumbCliExit plumb_motion_run(const PlumbCliArgs *args, const PlumbCliMotionForm *form,
                              PlumbCliMotion *motion, PlumbCliFault *fault)
{
    motion->point = calloc((size_t)args->points, form->point_size);
    if (motion->point == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "path", "no memory for so many points"));
    }
    const PlumbStatus status = form->solve(args, motion, fault);
    const PlumbCliExit code =
        status == PLUMB_OK ? print(args, form, motion, fault) : plumb_fault_exit(status);
    free(motion->point);
    return code;
}
