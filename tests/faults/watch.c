/* What a program does to the files of one folder, written down in order, so that a disk can be rebuilt as a
 * power cut would have left it at any moment. Preloaded; the folder is WATCH_FOLDER, the record WATCH_RECORD.
 *
 * A record: one letter, three numbers of eight bytes (their meaning by letter, below), the length of what
 * follows, then that many bytes.
 *   N inode            a name for a file: a new file, or one that stood there (path)
 *   W inode offset     bytes written
 *   T inode length     cut or grown to a length
 *   S inode            the file was synced
 *   D                  the folder was synced (path)
 *   R                  renamed (old path, zero byte, new path)
 *   U                  unlinked (path)
 *   O                  bytes to standard output: what was promised
 *
 * And the disk can be made to refuse: watch_fail(n, error, sticky) lets n more calls that change the folder
 * pass and refuses the next one, or all that follow, with that error; watch_fail(-1, 0, 0) ends it.
 * watch_calls() counts such calls.
 *
 * watch_kill(n, half) lets n more of them pass and kills the process at the next one: before it, or with half of
 * a write done.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

#define FILES 4096
static int record_to = -1;
static const char *folder;
static uint64_t inode_of[FILES]; /* of a descriptor in the folder; 0: not watched */
static char *folder_of[FILES]; /* the path of a descriptor that is a folder */

static void note(char letter, uint64_t a, uint64_t b, const void *bytes, uint64_t length) {
    if (record_to < 0) return;
    unsigned char head[25];
    head[0] = (unsigned char)letter;
    memcpy(head + 1, &a, 8);
    memcpy(head + 9, &b, 8);
    memcpy(head + 17, &length, 8);
    struct iovec parts[2] = {{head, 25}, {(void *)bytes, length}};
    if (syscall(SYS_writev, record_to, parts, length ? 2 : 1) < 0) abort();
}

__attribute__((constructor)) static void begin(void) {
    folder = getenv("WATCH_FOLDER");
    const char *where = getenv("WATCH_RECORD");
    if (folder && where)
        record_to = (int)syscall(SYS_openat, AT_FDCWD, where, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
}

static int watched(const char *path) {
    return record_to >= 0 && path && path[0] == '/' && strncmp(path, folder, strlen(folder)) == 0;
}

static long calls = 0, refuse_after = -1;
static int refuse_with = 0, refuse_all = 0;

void watch_fail(long after, int error, int sticky) {
    calls = 0;
    refuse_after = after;
    refuse_with = error;
    refuse_all = sticky;
}
long watch_calls(void) { return calls; }

static long kill_at = -1;
static int kill_half = 0;

void watch_kill(long after, int half) {
    calls = 0;
    kill_at = after;
    kill_half = half;
}

/* How much of a write is done: all of it, or half where the process is about to be killed. */
static size_t share(size_t count) {
    return kill_half && calls == kill_at && count > 1 ? count / 2 : count;
}

static int refused(void) {
    long now = calls++;
    if (now == kill_at) kill(getpid(), SIGKILL);
    if (refuse_after < 0 || now < refuse_after || (now > refuse_after && !refuse_all)) return 0;
    errno = refuse_with;
    return 1;
}

static int opened(int fd, const char *path, int flags) {
    if (fd < 0 || fd >= FILES || !watched(path)) return fd;
    struct stat found;
    if (fstat(fd, &found) != 0) return fd;
    free(folder_of[fd]);
    folder_of[fd] = S_ISDIR(found.st_mode) ? strdup(path) : NULL;
    inode_of[fd] = (uint64_t)found.st_ino;
    if (!folder_of[fd] && (flags & (O_CREAT | O_WRONLY | O_RDWR)))
        note('N', inode_of[fd], 0, path, strlen(path));
    if (flags & O_TRUNC) note('T', inode_of[fd], 0, NULL, 0);
    return fd;
}

#define OPEN(name)                                                              \
    int name(const char *path, int flags, ...) {                                \
        static int (*real)(const char *, int, ...);                             \
        if (!real) real = dlsym(RTLD_NEXT, #name);                              \
        mode_t mode = 0;                                                        \
        if (flags & (O_CREAT | __O_TMPFILE)) {                                  \
            va_list more;                                                       \
            va_start(more, flags);                                              \
            mode = va_arg(more, mode_t);                                        \
            va_end(more);                                                       \
        }                                                                       \
        if ((flags & O_CREAT) && watched(path) && refused()) return -1;         \
        return opened(real(path, flags, mode), path, flags);                    \
    }
OPEN(open)
OPEN(open64)

int openat(int at, const char *path, int flags, ...) {
    va_list more;
    va_start(more, flags);
    mode_t mode = va_arg(more, mode_t);
    va_end(more);
    return opened((int)syscall(SYS_openat, at, path, flags, mode), path, flags);
}

int close(int fd) {
    if (fd >= 0 && fd < FILES) inode_of[fd] = 0;
    return (int)syscall(SYS_close, fd);
}

static int is_watched(int fd) { return fd >= 0 && fd < FILES && inode_of[fd] != 0; }

ssize_t write(int fd, const void *bytes, size_t count) {
    int mine = is_watched(fd);
    if (mine && share(count) < count) syscall(SYS_write, fd, bytes, share(count));
    if (mine && refused()) return -1;
    off_t at = mine ? lseek(fd, 0, SEEK_CUR) : 0;
    ssize_t done = syscall(SYS_write, fd, bytes, count);
    if (done > 0 && mine) note('W', inode_of[fd], (uint64_t)at, bytes, (uint64_t)done);
    if (done > 0 && fd == 1) note('O', 0, 0, bytes, (uint64_t)done);
    return done;
}

static ssize_t placed(int fd, const void *bytes, size_t count, off_t at) {
    if (is_watched(fd) && share(count) < count) syscall(SYS_pwrite64, fd, bytes, share(count), at);
    if (is_watched(fd) && refused()) return -1;
    ssize_t done = syscall(SYS_pwrite64, fd, bytes, count, at);
    if (done > 0 && is_watched(fd)) note('W', inode_of[fd], (uint64_t)at, bytes, (uint64_t)done);
    return done;
}
ssize_t pwrite(int fd, const void *bytes, size_t count, off_t at) { return placed(fd, bytes, count, at); }
ssize_t pwrite64(int fd, const void *bytes, size_t count, off_t at) { return placed(fd, bytes, count, at); }

static int cut(int fd, off_t length) {
    if (is_watched(fd) && refused()) return -1;
    int done = (int)syscall(SYS_ftruncate, fd, length);
    if (done == 0 && is_watched(fd)) note('T', inode_of[fd], (uint64_t)length, NULL, 0);
    return done;
}
int ftruncate(int fd, off_t length) { return cut(fd, length); }
int ftruncate64(int fd, off_t length) { return cut(fd, length); }

static int synced(int fd, long number) {
    if (is_watched(fd) && refused()) return -1;
    int done = (int)syscall(number, fd);
    if (done == 0 && is_watched(fd)) {
        const char *path = folder_of[fd];
        note(path ? 'D' : 'S', inode_of[fd], 0, path, path ? strlen(path) : 0);
    }
    return done;
}
int fsync(int fd) { return synced(fd, SYS_fsync); }
int fdatasync(int fd) { return synced(fd, SYS_fdatasync); }

static void renamed(const char *old, const char *new) {
    char both[8192];
    size_t first = strlen(old), second = strlen(new);
    if (first + second + 1 > sizeof both) abort();
    memcpy(both, old, first + 1);
    memcpy(both + first + 1, new, second);
    note('R', 0, 0, both, first + 1 + second);
}
int rename(const char *old, const char *new) {
    if (watched(new) && refused()) return -1;
    int done = (int)syscall(SYS_renameat, AT_FDCWD, old, AT_FDCWD, new);
    if (done == 0 && watched(new)) renamed(old, new);
    return done;
}
int renameat(int from, const char *old, int to, const char *new) {
    if (watched(new) && refused()) return -1;
    int done = (int)syscall(SYS_renameat, from, old, to, new);
    if (done == 0 && watched(new)) renamed(old, new);
    return done;
}
int unlink(const char *path) {
    if (watched(path) && refused()) return -1;
    int done = (int)syscall(SYS_unlinkat, AT_FDCWD, path, 0);
    if (done == 0 && watched(path)) note('U', 0, 0, path, strlen(path));
    return done;
}
int unlinkat(int at, const char *path, int flags) {
    if (watched(path) && refused()) return -1;
    int done = (int)syscall(SYS_unlinkat, at, path, flags);
    if (done == 0 && watched(path)) note('U', 0, 0, path, strlen(path));
    return done;
}
int link(const char *old, const char *new) {
    if (watched(new) && refused()) return -1;
    int done = (int)syscall(SYS_linkat, AT_FDCWD, old, AT_FDCWD, new, 0);
    struct stat found;
    if (done == 0 && watched(new) && stat(new, &found) == 0)
        note('N', (uint64_t)found.st_ino, 0, new, strlen(new));
    return done;
}
int linkat(int from, const char *old, int to, const char *new, int flags) {
    if (watched(new) && refused()) return -1;
    int done = (int)syscall(SYS_linkat, from, old, to, new, flags);
    struct stat found;
    if (done == 0 && watched(new) && stat(new, &found) == 0)
        note('N', (uint64_t)found.st_ino, 0, new, strlen(new));
    return done;
}
