// SPDX-License-Identifier: MIT
// A library to preload (LD_PRELOAD) that makes the machine refuse, fail or die, at one chosen
// moment of a run. Files are those under one folder; all others are left alone.
//
//   FAULT_FOLDER=/path   the folder whose files the faults are about
//   FAULT_AT=N           the Nth call about them, from 1, fails; without it none does
//   FAULT_KIND=          what the call does then, and every later one that writes:
//     full     no space left on the device; a write takes half of its bytes first
//     readonly the file system has become read-only
//     broken   an input or output error
//     torn     half of the bytes are written, and the process is killed
//     killed   the process is killed before the call
//     done     the process is killed after the call
//   FAULT_COUNT=FILE     at the end the number of calls is written there
//   FAULT_MEMORY=N       the Nth request for memory, from 1, is refused; with FAULT_COUNT their
//                        number is written after that of the calls
//   FAULT_EVERY=N        between one SIGUSR2 and the next, every Nth request for memory is refused
//   FAULT_CLOCK=S        the clock stands S seconds beside the true one
#include <dlfcn.h>
#include <fcntl.h>
#include <stdarg.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <climits>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace {

enum class Kind { Full, ReadOnly, Broken, Torn, Killed, Done };

struct Settings {
  char folder[PATH_MAX] = "";
  long at = 0;
  Kind kind = Kind::Broken;
  char count_file[PATH_MAX] = "";
  long memory_at = 0;
  long memory_every = 0;
  long clock_s = 0;
};

Settings settings;
std::atomic<bool> ready = false;
std::atomic<long> calls = 0;
std::atomic<long> requests = 0;
std::atomic<bool> refusing = false;

long number_of(const char* name) {
  const char* text = getenv(name);
  return text == nullptr ? 0 : atol(text);
}

Kind kind_of(const char* text) {
  constexpr struct {
    const char* word;
    Kind kind;
  } kWords[] = {{"full", Kind::Full}, {"readonly", Kind::ReadOnly}, {"broken", Kind::Broken},
                {"torn", Kind::Torn}, {"killed", Kind::Killed},     {"done", Kind::Done}};
  for (const auto& entry : kWords) {
    if (text != nullptr && strcmp(text, entry.word) == 0) return entry.kind;
  }
  return Kind::Broken;
}

__attribute__((constructor)) void begin() {
  const char* folder = getenv("FAULT_FOLDER");
  if (folder == nullptr || realpath(folder, settings.folder) == nullptr) settings.folder[0] = '\0';
  const char* count_file = getenv("FAULT_COUNT");
  if (count_file != nullptr) strncpy(settings.count_file, count_file, PATH_MAX - 1);
  settings.at = number_of("FAULT_AT");
  settings.kind = kind_of(getenv("FAULT_KIND"));
  settings.memory_at = number_of("FAULT_MEMORY");
  settings.memory_every = number_of("FAULT_EVERY");
  settings.clock_s = number_of("FAULT_CLOCK");
  if (settings.memory_every > 0) signal(SIGUSR2, [](int) { refusing = !refusing; });
  ready = true;
}

__attribute__((destructor)) void end() {
  const long all_calls = calls, all_requests = requests;
  ready = false;
  if (settings.count_file[0] == '\0') return;
  if (FILE* file = fopen(settings.count_file, "w")) {
    fprintf(file, "%ld %ld\n", all_calls, all_requests);
    fclose(file);
  }
}

bool is_under_folder(const char* path) {
  const std::size_t length = strlen(settings.folder);
  return length > 0 && strncmp(path, settings.folder, length) == 0 &&
         (path[length] == '/' || path[length] == '\0');
}

// Whether the file, or the folder, that is open there is one of those.
bool is_ours(int fd) {
  if (!ready || settings.folder[0] == '\0' || fd < 0) return false;
  char link[64], path[PATH_MAX];
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  const ssize_t length = readlink(link, path, sizeof path - 1);
  if (length <= 0) return false;
  path[length] = '\0';
  return is_under_folder(path);
}

bool is_ours(const char* path) {
  if (!ready || settings.folder[0] == '\0') return false;
  char real[PATH_MAX];
  if (path[0] == '/') return is_under_folder(path);
  return realpath(".", real) != nullptr && is_under_folder(real);
}

int error_number() {
  if (settings.kind == Kind::Full) return ENOSPC;
  return settings.kind == Kind::ReadOnly ? EROFS : EIO;
}

// One call: what happens instead of it, before it and after it.
class Call {
 public:
  // `writes`: it needs room or the right to write, so a full or read-only disk goes on refusing it.
  Call(bool ours, bool writes) {
    if (!ours) return;
    const long number = ++calls;
    now_ = settings.at > 0 && number == settings.at;
    const bool later = settings.at > 0 && number > settings.at;
    const bool lasting = settings.kind == Kind::Full || settings.kind == Kind::ReadOnly;
    fails_ = (now_ || (later && lasting)) && settings.kind < Kind::Torn && (writes || !lasting);
    if (now_ && settings.kind == Kind::Killed) die();
  }
  ~Call() {
    if (now_ && settings.kind == Kind::Done) die();
  }
  bool fails() const { return fails_; }
  bool is_torn() const { return now_ && settings.kind == Kind::Torn; }
  bool is_half() const { return fails_ && now_ && settings.kind == Kind::Full; }
  [[noreturn]] static void die() {
    kill(getpid(), SIGKILL);
    for (;;) pause();
  }
  int refuse() const {
    errno = error_number();
    return -1;
  }

 private:
  bool now_ = false;
  bool fails_ = false;
};

template <class Function>
Function real(const char* name) {
  Function function = nullptr;
  void* found = dlsym(RTLD_NEXT, name);
  memcpy(&function, &found, sizeof function);
  return function;
}

bool memory_is_refused() {
  if (!ready) return false;
  const long number = ++requests;
  if (settings.memory_at > 0) return number == settings.memory_at;
  return refusing && number % settings.memory_every == 0;
}

}  // namespace

extern "C" {

ssize_t write(int fd, const void* bytes, size_t count) {
  static const auto real_write = real<ssize_t (*)(int, const void*, size_t)>("write");
  const Call call(is_ours(fd), true);
  if (call.is_torn() || call.is_half()) {
    const ssize_t half = real_write(fd, bytes, count / 2);
    if (call.is_torn()) Call::die();
    if (half > 0) return half;
  }
  return call.fails() ? call.refuse() : real_write(fd, bytes, count);
}

ssize_t read(int fd, void* bytes, size_t count) {
  static const auto real_read = real<ssize_t (*)(int, void*, size_t)>("read");
  const Call call(is_ours(fd), false);
  return call.fails() ? call.refuse() : real_read(fd, bytes, count);
}

int fsync(int fd) {
  static const auto real_fsync = real<int (*)(int)>("fsync");
  const Call call(is_ours(fd), true);
  return call.fails() ? call.refuse() : real_fsync(fd);
}

int ftruncate(int fd, off_t length) {
  static const auto real_ftruncate = real<int (*)(int, off_t)>("ftruncate");
  const Call call(is_ours(fd), true);
  return call.fails() ? call.refuse() : real_ftruncate(fd, length);
}

int fchmod(int fd, mode_t mode) {
  static const auto real_fchmod = real<int (*)(int, mode_t)>("fchmod");
  const Call call(is_ours(fd), true);
  return call.fails() ? call.refuse() : real_fchmod(fd, mode);
}

int fchown(int fd, uid_t owner, gid_t group) {
  static const auto real_fchown = real<int (*)(int, uid_t, gid_t)>("fchown");
  const Call call(is_ours(fd), true);
  return call.fails() ? call.refuse() : real_fchown(fd, owner, group);
}

int flock(int fd, int operation) {
  static const auto real_flock = real<int (*)(int, int)>("flock");
  const Call call(is_ours(fd), false);
  return call.fails() ? call.refuse() : real_flock(fd, operation);
}

int fstat(int fd, struct stat* status) {
  static const auto real_fstat = real<int (*)(int, struct stat*)>("fstat");
  const Call call(is_ours(fd), false);
  return call.fails() ? call.refuse() : real_fstat(fd, status);
}

int fstatat(int folder, const char* name, struct stat* status, int flags) {
  static const auto real_fstatat = real<int (*)(int, const char*, struct stat*, int)>("fstatat");
  const Call call(is_ours(folder), false);
  return call.fails() ? call.refuse() : real_fstatat(folder, name, status, flags);
}

int renameat(int from_folder, const char* from, int to_folder, const char* to) {
  static const auto real_renameat = real<int (*)(int, const char*, int, const char*)>("renameat");
  const Call call(is_ours(from_folder), true);
  return call.fails() ? call.refuse() : real_renameat(from_folder, from, to_folder, to);
}

int unlinkat(int folder, const char* name, int flags) {
  static const auto real_unlinkat = real<int (*)(int, const char*, int)>("unlinkat");
  const Call call(is_ours(folder), true);
  return call.fails() ? call.refuse() : real_unlinkat(folder, name, flags);
}

int open(const char* path, int flags, ...) {
  static const auto real_open = real<int (*)(const char*, int, ...)>("open");
  va_list rest;
  va_start(rest, flags);
  const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  const Call call(is_ours(path), (flags & O_ACCMODE) != O_RDONLY);
  return call.fails() ? call.refuse() : real_open(path, flags, mode);
}

int openat(int folder, const char* name, int flags, ...) {
  static const auto real_openat = real<int (*)(int, const char*, int, ...)>("openat");
  va_list rest;
  va_start(rest, flags);
  const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  const Call call(is_ours(folder), (flags & O_ACCMODE) != O_RDONLY);
  return call.fails() ? call.refuse() : real_openat(folder, name, flags, mode);
}

// ---- memory

void* malloc(size_t size) {
  static const auto real_malloc = real<void* (*)(size_t)>("malloc");
  return memory_is_refused() ? nullptr : real_malloc(size);
}

void* realloc(void* before, size_t size) {
  static const auto real_realloc = real<void* (*)(void*, size_t)>("realloc");
  return memory_is_refused() ? nullptr : real_realloc(before, size);
}

// ---- the clock

int clock_gettime(clockid_t clock, struct timespec* moment) {
  static const auto real_gettime = real<int (*)(clockid_t, struct timespec*)>("clock_gettime");
  const int result = real_gettime(clock, moment);
  if (clock == CLOCK_REALTIME) moment->tv_sec += settings.clock_s;
  return result;
}

time_t time(time_t* seconds) {
  struct timespec moment {};
  clock_gettime(CLOCK_REALTIME, &moment);
  if (seconds != nullptr) *seconds = moment.tv_sec;
  return moment.tv_sec;
}

}  // extern "C"
