/*
 * Stands between a process and its disk (LD_PRELOAD): counts what is done to the files of a book, makes one call of
 * it fail, or writes down every call so that a test can play a power cut at any moment. Linux with the GNU C library.
 *
 * The process speaks to it by writing lines into the file named by DISK_SHIM_CONTROL:
 *   count            begin to count from nought, nothing fails
 *   fail N how       the Nth call from now on fails: full (ENOSPC), error (EIO), short (half of a write)
 *   off              nothing is counted and nothing fails
 *   mark TEXT        writes TEXT into the trace
 * After each line the control file holds the number of calls counted so far and whether one was made to fail.
 * DISK_SHIM_MATCH is a text that the paths in question hold; DISK_SHIM_TRACE, if set, the file for the trace.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <unistd.h>

static long counted = 0, failing_at = 0;
static int is_counting = 0, has_failed = 0;
static char how[16] = "";
static int trace_file = -1;

static void *real(const char *name) { return dlsym(RTLD_NEXT, name); }

static int is_ours(const char *path) {
  const char *match = getenv("DISK_SHIM_MATCH");
  return match != NULL && path != NULL && strstr(path, match) != NULL && strstr(path, "-shm") == NULL;
}

static int path_of(int file, char *path, size_t size) {
  char link[64];
  snprintf(link, sizeof link, "/proc/self/fd/%d", file);
  ssize_t length = readlink(link, path, size - 1);
  if (length < 0) return 0;
  path[length] = 0;
  return 1;
}

static void put_all(int file, const void *bytes, size_t size) {
  const char *at = bytes;
  while (size > 0) {
    long done = syscall(SYS_write, file, at, size);
    if (done <= 0) abort();
    at += done;
    size -= (size_t)done;
  }
}

/* One line a call, the bytes after it. */
static void trace(const char *call, const char *path, long long offset, const void *bytes, size_t size) {
  const char *name = getenv("DISK_SHIM_TRACE");
  if (name == NULL) return;
  if (trace_file < 0) {
    int opened = (int)syscall(SYS_openat, AT_FDCWD, name, O_CREAT | O_WRONLY | O_APPEND, 0600);
    /* Out of the way of whoever counts on low numbers. */
    trace_file = fcntl(opened, F_DUPFD_CLOEXEC, 500);
    syscall(SYS_close, opened);
  }
  char head[4300];
  int length = snprintf(head, sizeof head, "%s\t%s\t%lld\t%zu\n", call, path, offset, size);
  put_all(trace_file, head, (size_t)length);
  if (size > 0) put_all(trace_file, bytes, size);
}

static int is_now(void) {
  if (!is_counting) return 0;
  counted += 1;
  if (counted != failing_at) return 0;
  has_failed = 1;
  return 1;
}

static void obey(int file, const char *text, size_t size) {
  char line[4096];
  size_t length = size < sizeof line - 1 ? size : sizeof line - 1;
  memcpy(line, text, length);
  line[length] = 0;
  if (strncmp(line, "mark ", 5) == 0) {
    line[strcspn(line, "\n")] = 0;
    trace("mark", "-", 0, line + 5, strlen(line + 5));
    return;
  }
  is_counting = strncmp(line, "off", 3) != 0;
  if (is_counting) {
    counted = 0;
    has_failed = 0;
    failing_at = 0;
    sscanf(line, "fail %ld %15s", &failing_at, how);
  }
  char answer[64];
  int said = snprintf(answer, sizeof answer, "%ld %d\n", counted, has_failed);
  syscall(SYS_ftruncate, file, 0);
  syscall(SYS_pwrite64, file, answer, (size_t)said, 0);
}

static int is_control(const char *path) {
  const char *control = getenv("DISK_SHIM_CONTROL");
  return control != NULL && strcmp(path, control) == 0;
}

static ssize_t written(int file, const void *bytes, size_t size, off_t offset, int is_placed) {
  char path[4096];
  int known = file > 2 && path_of(file, path, sizeof path);
  if (known && is_control(path)) {
    obey(file, bytes, size);
    return (ssize_t)size;
  }
  long long at = is_placed ? (long long)offset : 0;
  size_t asked = size;
  if (known && is_ours(path)) {
    if (!is_placed) at = lseek(file, 0, SEEK_CUR);
    if (is_now()) {
      if (strcmp(how, "short") != 0 || size < 2) {
        errno = strcmp(how, "error") == 0 ? EIO : ENOSPC;
        return -1;
      }
      asked = size / 2;
      /* What comes after a short write finds the disk full. */
      failing_at = counted + 1;
    }
  }
  long done = is_placed ? syscall(SYS_pwrite64, file, bytes, asked, offset) : syscall(SYS_write, file, bytes, asked);
  if (known && is_ours(path) && done > 0) trace("write", path, at, bytes, (size_t)done);
  return done;
}

ssize_t write(int file, const void *bytes, size_t size) { return written(file, bytes, size, 0, 0); }
ssize_t pwrite(int file, const void *bytes, size_t size, off_t offset) { return written(file, bytes, size, offset, 1); }
ssize_t pwrite64(int file, const void *bytes, size_t size, off64_t offset) { return written(file, bytes, size, offset, 1); }

static int synced(int file, long number) {
  char path[4096];
  int known = path_of(file, path, sizeof path) && is_ours(path);
  if (known && is_now()) {
    errno = strcmp(how, "error") == 0 ? EIO : ENOSPC;
    return -1;
  }
  int done = (int)syscall(number, file);
  if (known && done == 0) trace("sync", path, 0, NULL, 0);
  return done;
}

int fsync(int file) { return synced(file, SYS_fsync); }
int fdatasync(int file) { return synced(file, SYS_fdatasync); }

static int cut(int file, off_t size) {
  char path[4096];
  int known = path_of(file, path, sizeof path) && is_ours(path);
  if (known && is_now()) {
    errno = EIO;
    return -1;
  }
  int done = (int)syscall(SYS_ftruncate, file, size);
  if (known && done == 0) trace("cut", path, (long long)size, NULL, 0);
  return done;
}

int ftruncate(int file, off_t size) { return cut(file, size); }
int ftruncate64(int file, off64_t size) { return cut(file, size); }

int unlink(const char *path) {
  int (*call)(const char *) = (int (*)(const char *))real("unlink");
  if (is_ours(path) && is_now()) {
    errno = EIO;
    return -1;
  }
  int done = call(path);
  if (done == 0 && is_ours(path)) trace("unlink", path, 0, NULL, 0);
  return done;
}
