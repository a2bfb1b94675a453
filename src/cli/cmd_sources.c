/* SPDX-License-Identifier: MIT */
/* plumbar sources: what every figure rests on, and published results against this program's. */
#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "published.h"
#include "text_out.h"

#include <plumbar/sources.h>

#include <string.h>

enum { LINE_SIZE = 2048, BASES_MAX = 16 };

/* Whether a row is asked for: every word stands in its file, key, basis or source. */
static bool wanted(const PlumbCliArgs *args, const PlumbSourceRow *row)
{
    for (int i = 0; i < args->word_count; i++) {
        const char *const word = args->word[i];
        if (strstr(row->file, word) == NULL && strstr(row->key, word) == NULL &&
            strstr(row->basis, word) == NULL && strstr(row->source, word) == NULL) {
            return false;
        }
    }
    return true;
}

static int wanted_count(const PlumbCliArgs *args)
{
    int count = 0;
    for (int i = 0; i < plumb_source_row_count(); i++) {
        count += wanted(args, plumb_source_row(i)) ? 1 : 0;
    }
    return count;
}

/* Pieces of one sentence. */
#define PARTS(...)                                                                                 \
    (const char *const[]){__VA_ARGS__},                                                            \
        (int)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))

static void print_line(PlumbCliOutput *out, size_t hang, const char *const part[], int count)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    for (int i = 0; i < count; i++) {
        plumb_text_string(&text, part[i]);
    }
    plumb_print_wrapped(out, line, hang);
}

static void print_row(const PlumbSourceRow *row, PlumbCliOutput *out)
{
    const bool noted = row->note[0] != '\0';
    print_line(out, 6,
               PARTS("  ", row->key, " [", row->basis, "; ", row->source, "] ", row->figures,
                     noted ? ". " : "", row->note));
}

/* How many rows rest on each basis. */
static void print_bases(const PlumbCliArgs *args, PlumbCliOutput *out)
{
    const char *basis[BASES_MAX];
    int count[BASES_MAX] = {0};
    int bases = 0;
    for (int i = 0; i < plumb_source_row_count(); i++) {
        const PlumbSourceRow *const row = plumb_source_row(i);
        int k = 0;
        while (k < bases && strcmp(basis[k], row->basis) != 0) {
            k++;
        }
        if (!wanted(args, row) || k == BASES_MAX) {
            continue;
        }
        bases += k == bases ? 1 : 0;
        basis[k] = row->basis;
        count[k]++;
    }
    PlumbCliTable table = plumb_table_begin("lr", PLUMB_METRIC);
    for (int k = 0; k < bases; k++) {
        char figure[32];
        PlumbText text = plumb_text_begin(figure, sizeof figure);
        plumb_text_integer(&text, count[k]);
        plumb_table_text(&table, basis[k]);
        plumb_table_text(&table, figure);
    }
    plumb_print_heading(out, "Rows by what they rest on");
    plumb_table_end(&table, 2, out);
    print_line(out, 0,
               PARTS("survey, scanner, survey+scanner: measured on many people; derived: computed "
                     "from such; classic: fractions of handbooks; published, rule: seen in a "
                     "publication or rule book; memory: no text seen; judgement: a choice of this "
                     "model."));
}

static void print_citations(PlumbCliOutput *out)
{
    plumb_print_heading(out, "Sources");
    for (int i = 0; i < plumb_citation_count(); i++) {
        const PlumbCitation *const cited = plumb_citation(i);
        print_line(out, 6, PARTS("  ", cited->source, ": ", cited->citation));
    }
}

static void print_published(PlumbCliOutput *out)
{
    plumb_print_heading(out, "Published results against this program");
    for (int i = 0; i < plumb_published_count; i++) {
        const PlumbPublished *const row = &plumb_published[i];
        print_line(out, 6,
                   PARTS("  ", row->lift, ", ", row->quantity, ": published ", row->published,
                         "; here ", row->ours, "; inside: ", row->inside, ". ", row->conditions,
                         ". ", row->source));
    }
}

static void print_text(const PlumbCliArgs *args, PlumbCliOutput *out)
{
    const char *file = "";
    for (int i = 0; i < plumb_source_row_count(); i++) {
        const PlumbSourceRow *const row = plumb_source_row(i);
        if (!wanted(args, row)) {
            continue;
        }
        if (strcmp(file, row->file) != 0) {
            file = row->file;
            plumb_print_heading(out, file);
        }
        print_row(row, out);
    }
    print_bases(args, out);
    print_citations(out);
    print_published(out);
}

static json_t *row_object(const PlumbSourceRow *row, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    plumb_json_string(json, "file", row->file);
    plumb_json_string(json, "row", row->key);
    plumb_json_string(json, "figures", row->figures);
    plumb_json_string(json, "basis", row->basis);
    plumb_json_string(json, "source", row->source);
    plumb_json_string(json, "citation", row->citation);
    plumb_json_string(json, "note", row->note);
    return json.object;
}

static json_t *published_object(const PlumbPublished *row, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    plumb_json_string(json, "lift", row->lift);
    plumb_json_string(json, "quantity", row->quantity);
    plumb_json_string(json, "published", row->published);
    plumb_json_string(json, "ours", row->ours);
    plumb_json_string(json, "inside", row->inside);
    plumb_json_string(json, "conditions", row->conditions);
    plumb_json_string(json, "source", row->source);
    return json.object;
}

static void print_json(const PlumbCliArgs *args, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    json_t *const rows = json_array();
    plumb_json_put(json, "rows", rows);
    for (int i = 0; i < plumb_source_row_count(); i++) {
        if (wanted(args, plumb_source_row(i))) {
            json_array_append_new(rows, row_object(plumb_source_row(i), &failed));
        }
    }
    const PlumbJson cited = plumb_json_object(json, "citations");
    for (int i = 0; i < plumb_citation_count(); i++) {
        plumb_json_string(cited, plumb_citation(i)->source, plumb_citation(i)->citation);
    }
    json_t *const published = json_array();
    plumb_json_put(json, "published", published);
    for (int i = 0; i < plumb_published_count; i++) {
        json_array_append_new(published, published_object(&plumb_published[i], &failed));
    }
    plumb_json_print(json, 2, out);
    plumb_output_string(out, "\n");
}

static void csv_row(PlumbCsv *csv, const char *const cell[7])
{
    for (int i = 0; i < 7; i++) {
        plumb_csv_text(csv, cell[i]);
    }
    plumb_csv_row_end(csv);
}

static void print_csv(const PlumbCliArgs *args, PlumbCliOutput *out)
{
    PlumbCsv csv = {.out = out};
    csv_row(&csv,
            (const char *const[]){"file", "row", "figures", "basis", "source", "citation", "note"});
    for (int i = 0; i < plumb_source_row_count(); i++) {
        const PlumbSourceRow *const row = plumb_source_row(i);
        if (wanted(args, row)) {
            csv_row(&csv, (const char *const[]){row->file, row->key, row->figures, row->basis,
                                                row->source, row->citation, row->note});
        }
    }
}

PlumbCliExit plumb_cli_sources(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    if (wanted_count(args) == 0) {
        return plumb_fault_exit(
            plumb_fault_bad(fault, args->word[0], "no row has ",
                            args->word_count > 1 ? "all these words" : "this word",
                            " in its file, key, basis or source; plumbar sources lists all"));
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(args, &out);
    } else if (args->csv) {
        print_csv(args, &out);
    } else {
        print_text(args, &out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}
