/* SPDX-License-Identifier: MIT */
/* One file a window: the sheet as it stands, with a checksum, under a lock that dies with us. */
#include "journal.h"

#include "book.h"

#include <SDL.h>

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { SLOTS_MAX = 16 };

static const double interval_s = 0.5; /* half of what may be lost: the rest is the disk's */

/* A record of this very program; another build's is not read. */
typedef struct Leaf {
    char mark[32];
    uint64_t size;
    uint64_t sum;
    PlumbStamp stamp; /* of the sheet's file, as this window knew it */
    PlumbSheet sheet;
} Leaf;

struct PlumbJournal {
    int lock;
    char path[PLUMB_PATH_SIZE];
    bool due;
    double written_s;
    SDL_Thread *thread;
    SDL_mutex *mutex;
    SDL_cond *wake;
    bool waiting; /* guarded: leaf waits to be written */
    bool end;     /* guarded */
    Leaf leaf;    /* guarded */
    Leaf writing; /* of the thread */
};

static const char mark[32] = "plumbar session " PLUMB_VERSION;

static uint64_t sum_of(const Leaf *leaf)
{
    const unsigned char *const byte = (const unsigned char *)&leaf->stamp;
    const size_t count = sizeof *leaf - offsetof(Leaf, stamp);
    uint64_t hash = 0xCBF29CE484222325U;
    for (size_t i = 0; i < count; i++) {
        hash = (hash ^ byte[i]) * 0x100000001B3U;
    }
    return hash;
}

static bool make_folder(const char *folder)
{
    char path[PLUMB_PATH_SIZE];
    const size_t length = strlen(folder);
    if (length == 0 || length >= sizeof path) {
        return false;
    }
    memcpy(path, folder, length + 1);
    for (size_t i = 1; i <= length; i++) {
        if (path[i] == '/' || path[i] == '\0') {
            const char kept = path[i];
            path[i] = '\0';
            if (mkdir(path, 0700) != 0 && errno != EEXIST) {
                return false;
            }
            path[i] = kept;
        }
    }
    return true;
}

static int write_leaves(void *user)
{
    struct PlumbJournal *const journal = user;
    SDL_LockMutex(journal->mutex);
    while (journal->waiting || !journal->end) {
        if (!journal->waiting) {
            SDL_CondWait(journal->wake, journal->mutex);
            continue;
        }
        journal->waiting = false;
        journal->writing = journal->leaf;
        SDL_UnlockMutex(journal->mutex);
        journal->writing.sum = sum_of(&journal->writing);
        /* A full disk must not stop the drawing; the next second tries again. */
        plumb_file_write_atomic(journal->path, (const char *)&journal->writing,
                                sizeof journal->writing, NULL);
        SDL_LockMutex(journal->mutex);
    }
    SDL_UnlockMutex(journal->mutex);
    return 0;
}

/* Whether something of it stands in no file. */
static bool at_risk(const PlumbSheet *sheet)
{
    return sheet->unsaved || sheet->marked.unsaved;
}

static bool numbers_hold(const PlumbSheet *sheet)
{
    bool holds = sheet->named_count >= 0 && sheet->named_count <= PLUMB_NAMED_MAX &&
                 (unsigned)sheet->lift < PLUMB_LIFT_COUNT;
    for (int i = 0; i < PLUMB_LIFT_COUNT && holds; i++) {
        holds = sheet->setup[i].lift == (PlumbLift)i &&
                plumb_setup_check(&sheet->setup[i], NULL) == PLUMB_OK;
    }
    for (int i = 0; holds && i < sheet->named_count; i++) {
        holds = plumb_setup_check(&sheet->named[i].setup, NULL) == PLUMB_OK;
    }
    return holds && plumb_marked_holds(&sheet->marked) &&
           (!sheet->pencilled || plumb_setup_check(&sheet->pencil, NULL) == PLUMB_OK);
}

static bool read_leaf(const char *path, Leaf **leaf)
{
    char *bytes = NULL;
    size_t length = 0;
    if (plumb_file_read_whole(path, sizeof **leaf, &bytes, &length, NULL) != PLUMB_OK) {
        return false;
    }
    *leaf = (Leaf *)(void *)bytes;
    PlumbLifter lifter;
    if (length == sizeof **leaf && memcmp((*leaf)->mark, mark, sizeof mark) == 0 &&
        (*leaf)->size == sizeof **leaf && (*leaf)->sum == sum_of(*leaf) &&
        numbers_hold(&(*leaf)->sheet) &&
        plumb_lifter_record_lifter(&(*leaf)->sheet.record, &lifter, NULL) == PLUMB_OK) {
        return true;
    }
    free(bytes);
    return false;
}

/* Asked for another file, a start leaves the work on this one where it is. */
static bool concerns(const PlumbDesk *desk, const Leaf *leaf)
{
    const bool plain = desk->options->path[0] == '\0' && desk->options->setup_count <= 1;
    return plain || strcmp(leaf->sheet.path, desk->options->path) == 0;
}

static void restore(PlumbDesk *desk, const Leaf *leaf)
{
    plumb_desk_keep(desk, 0);
    desk->now = leaf->sheet;
    if (leaf->stamp.path[0] != '\0') {
        desk->stamp[0] = leaf->stamp;
        desk->stamp_count = 1;
    }
    plumb_desk_touch(desk);
    plumb_desk_say(desk, false,
                   "Work that was not saved is back as it was when the window last ran. Ctrl+S "
                   "saves it; Ctrl+Z leaves it.");
}

/* Locks a slot; -1 where another window has it. */
static int lock_slot(const char *folder, int slot, char path[PLUMB_PATH_SIZE])
{
    PlumbText text = plumb_text_begin(path, PLUMB_PATH_SIZE);
    plumb_text_string(&text, folder);
    plumb_text_string(&text, "/session-");
    plumb_text_integer(&text, slot);
    const size_t stem = text.length;
    plumb_text_string(&text, ".lock");
    const int lock = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    path[stem] = '\0';
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    if (lock >= 0 && fcntl(lock, F_SETLK, &whole) != 0) {
        close(lock);
        return -1;
    }
    return lock;
}

static bool take_slot(PlumbDesk *desk, struct PlumbJournal *journal)
{
    for (int i = 0; i < SLOTS_MAX; i++) {
        Leaf *leaf = NULL;
        const int lock = lock_slot(desk->options->state_folder, i, journal->path);
        if (lock < 0) {
            continue;
        }
        const bool left = read_leaf(journal->path, &leaf);
        const bool ours = !left || concerns(desk, leaf);
        if (left && ours && (at_risk(&leaf->sheet) || leaf->sheet.pencilled)) {
            restore(desk, leaf);
        }
        free(left ? leaf : NULL);
        if (ours) {
            journal->lock = lock;
            return true;
        }
        close(lock);
    }
    return false;
}

void plumb_journal_open(PlumbDesk *desk)
{
    if (desk->options->state_folder == NULL || !make_folder(desk->options->state_folder)) {
        return;
    }
    struct PlumbJournal *const journal = calloc(1, sizeof *journal);
    if (journal == NULL) {
        return;
    }
    if (!take_slot(desk, journal)) {
        free(journal);
        return;
    }
    journal->written_s = plumb_clock_s() - interval_s;
    journal->mutex = SDL_CreateMutex();
    journal->wake = SDL_CreateCond();
    journal->thread = SDL_CreateThread(write_leaves, "journal", journal);
    desk->journal = journal;
}

void plumb_journal_touch(PlumbDesk *desk)
{
    if (desk->journal != NULL) {
        desk->journal->due = true;
    }
}

static void hand_over(PlumbDesk *desk)
{
    struct PlumbJournal *const journal = desk->journal;
    SDL_LockMutex(journal->mutex);
    Leaf *const leaf = &journal->leaf;
    memset(leaf, 0, sizeof *leaf);
    memcpy(leaf->mark, mark, sizeof mark);
    leaf->size = sizeof *leaf;
    leaf->sheet = desk->now;
    for (int i = 0; i < desk->stamp_count; i++) {
        if (strcmp(desk->stamp[i].path, desk->now.path) == 0) {
            leaf->stamp = desk->stamp[i];
        }
    }
    journal->waiting = true;
    SDL_CondSignal(journal->wake);
    SDL_UnlockMutex(journal->mutex);
}

double plumb_journal_tend(PlumbDesk *desk)
{
    struct PlumbJournal *const journal = desk->journal;
    if (journal == NULL || !journal->due) {
        return -1.0;
    }
    const double now_s = plumb_clock_s();
    const double left_s = journal->written_s + interval_s - now_s;
    if (left_s > 0.0) {
        return left_s;
    }
    journal->due = false;
    journal->written_s = now_s;
    hand_over(desk);
    return -1.0;
}

void plumb_journal_close(PlumbDesk *desk)
{
    struct PlumbJournal *const journal = desk->journal;
    if (journal == NULL) {
        return;
    }
    if (at_risk(&desk->now)) {
        hand_over(desk);
    }
    SDL_LockMutex(journal->mutex);
    journal->end = true;
    SDL_CondSignal(journal->wake);
    SDL_UnlockMutex(journal->mutex);
    SDL_WaitThread(journal->thread, NULL);
    if (!at_risk(&desk->now)) {
        unlink(journal->path);
    }
    SDL_DestroyCond(journal->wake);
    SDL_DestroyMutex(journal->mutex);
    close(journal->lock);
    desk->journal = NULL;
    free(journal);
}
