/* SPDX-License-Identifier: MIT */
/* The words of a command told apart: a lift, a file, key=value. */
#include "words.h"

#include "base/words.h"

#include <plumbar/format.h>

#include <string.h>

static const char key_letters[] =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_.-";

bool plumb_words_is_pair(const char *text)
{
    const size_t length = strspn(text, key_letters);
    return length > 0 && text[0] != '.' && text[length] == '=';
}

int plumb_words_cut(char *text, const char **word, int max)
{
    int count = 0;
    for (char *c = text; *c != '\0'; c++) {
        const bool begins = c == text || c[-1] == ' ' || c[-1] == '\0';
        if (!begins || !plumb_words_is_pair(c)) {
            continue;
        }
        if (count == max) {
            return -1;
        }
        for (char *before = c; before > text && before[-1] == ' '; before--) {
            before[-1] = '\0';
        }
        word[count++] = c;
    }
    for (size_t end = strlen(text); count == 1 && end > 0 && text[end - 1] == ' '; end--) {
        text[end - 1] = '\0';
    }
    return count;
}

static PlumbStatus twice(const PlumbCliPair *first, const char *value, PlumbCliFault *fault)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, "given twice, as '");
    plumb_text_string(&text, first->value);
    plumb_text_string(&text, "' and as '");
    plumb_text_string(&text, value);
    plumb_text_string(&text, "'; leave one out");
    return plumb_fault_set(fault, PLUMB_BAD_INPUT, first->key, message);
}

static PlumbStatus add_pair(const char *word, PlumbCliWords *words, PlumbCliFault *fault)
{
    const char *const equals = strchr(word, '=');
    const size_t length = (size_t)(equals - word);
    if (length >= PLUMB_PAIR_KEY_SIZE || words->pair_count == PLUMB_PAIRS_MAX) {
        return plumb_fault_bad(fault, "arguments", "'", word, "' is longer than any setting");
    }
    PlumbCliPair *const pair = &words->pair[words->pair_count];
    memcpy(pair->key, word, length);
    pair->key[length] = '\0';
    pair->value = equals + 1;
    if (pair->value[0] == '\0') {
        return plumb_fault_bad(fault, pair->key, "has no value; write ", pair->key, "=VALUE");
    }
    for (int i = 0; i < words->pair_count; i++) {
        if (strcmp(words->pair[i].key, pair->key) == 0) {
            return twice(&words->pair[i], pair->value, fault);
        }
    }
    words->pair_count++;
    return PLUMB_OK;
}

static PlumbStatus unknown_lift(const char *word, PlumbCliFault *fault)
{
    PlumbNearest search = plumb_nearest_begin(word, strlen(word));
    for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
        plumb_nearest_try(&search, plumb_lift_name((PlumbLift)i));
    }
    const char *const nearest = plumb_nearest_word(&search);
    char after[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(after, sizeof after);
    plumb_text_string(&text, "' is no lift; ");
    if (nearest != NULL) {
        plumb_text_string(&text, "did you mean ");
        plumb_text_string(&text, nearest);
        plumb_text_string(&text, "?");
    } else {
        plumb_text_string(&text, "write deadlift, squat or bench (a file is named with its "
                                 "ending, lifter.yaml)");
    }
    return plumb_fault_bad(fault, "lift", "'", word, after);
}

/* Whether a bare word can be the name of a file: it has an ending, a folder, or a set-up. */
static bool looks_like_file(const char *word)
{
    return strpbrk(word, "./:") != NULL;
}

static PlumbStatus add_bare(const char *word, bool takes_lift, PlumbCliWords *words,
                            PlumbCliFault *fault)
{
    PlumbLift lift = PLUMB_DEADLIFT;
    if (takes_lift && plumb_lift_find(word, strlen(word), &lift)) {
        if (words->has_lift) {
            return plumb_fault_bad(fault, "lift", "given twice; leave out '", word, "'");
        }
        words->has_lift = true;
        words->lift = lift;
        return PLUMB_OK;
    }
    if (takes_lift && !words->has_lift && !looks_like_file(word)) {
        return unknown_lift(word, fault);
    }
    if (!looks_like_file(word) && plumb_setting_find(word, strlen(word)) != NULL) {
        return plumb_fault_bad(fault, word, "has no value; write ", word,
                               strcmp(word, "auto") == 0 ? "=yes" : "=VALUE");
    }
    if (words->file != NULL) {
        return plumb_fault_bad(fault, "arguments", "one file at a time; '", word,
                               "' is a second one (a setting is written key=value; put quotes "
                               "around what has spaces)");
    }
    words->file = word;
    return PLUMB_OK;
}

PlumbStatus plumb_words_read(const char *const *word, int count, bool takes_lift,
                             PlumbCliWords *words, PlumbCliFault *fault)
{
    *words = (PlumbCliWords){.pair_count = 0};
    for (int i = 0; i < count; i++) {
        const PlumbStatus status = plumb_words_is_pair(word[i])
                                       ? add_pair(word[i], words, fault)
                                       : add_bare(word[i], takes_lift, words, fault);
        if (status != PLUMB_OK) {
            return status;
        }
    }
    return PLUMB_OK;
}
