/*
 * Stands between a program and its C library, so that the program finds a Pi's SPI and GPIO devices where
 * there are none. Preloaded (LD_PRELOAD), with BELLWIRE_DEVICES naming the UNIX socket of the simulated
 * kernel. What a call means is decided there; this file only carries open, ioctl and close over, and lets
 * every other path and descriptor pass through untouched.
 *
 * A message: node, request, length (32 bits each, this machine's byte order), bytes.
 * Its answer: result (a number, or an errno below zero), length, bytes.
 */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <linux/gpio.h>
#include <linux/spi/spidev.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <sys/un.h>
#include <unistd.h>

enum { OPEN = 0, CLOSE = 1, DESCRIPTORS = 1024, LONGEST = 4096 };

#define CHIP "gpiochip0"
#define CHIP_MAJOR 254
#define CHIP_MINOR 0

static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static int line = -1;
static int32_t nodes[DESCRIPTORS]; /* by descriptor; 0: not one of ours */

#define REAL(type, name, ...) ((type(*)(__VA_ARGS__))dlsym(RTLD_NEXT, name))

static int real_open(const char *path, int flags, mode_t mode) {
  static int (*real)(const char *, int, ...);
  if (!real) real = (int (*)(const char *, int, ...))dlsym(RTLD_NEXT, "open");
  return real(path, flags, mode);
}

static int real_close(int fd) {
  static int (*real)(int);
  if (!real) real = REAL(int, "close", int);
  return real(fd);
}

static int move(ssize_t (*call)(int, void *, size_t), void *at, size_t length) {
  for (size_t done = 0; done < length;) {
    ssize_t count = call(line, (char *)at + done, length - done);
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return -1;
    done += (size_t)count;
  }
  return 0;
}

static ssize_t put(int fd, void *at, size_t length) { return send(fd, at, length, MSG_NOSIGNAL); }

static int connected(void) {
  const char *path = getenv("BELLWIRE_DEVICES");
  struct sockaddr_un address = {.sun_family = AF_UNIX};
  if (line >= 0) return 0;
  if (!path || strlen(path) >= sizeof address.sun_path) return -1;
  strcpy(address.sun_path, path);
  line = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (line >= 0 && connect(line, (struct sockaddr *)&address, sizeof address) == 0) return 0;
  if (line >= 0) real_close(line);
  line = -1;
  return -1;
}

/* Sends a request and copies up to room bytes of its answer; its result, or -errno: ENODEV once the other side is gone. */
static int32_t ask(int32_t node, uint32_t request, const void *out, uint32_t length, void *in, uint32_t room) {
  uint32_t head[3] = {(uint32_t)node, request, length};
  int32_t answer[2];
  char rest[LONGEST];
  int32_t result = -ENODEV;
  pthread_mutex_lock(&lock);
  if (connected() == 0 && move(put, head, sizeof head) == 0 && move(put, (void *)out, length) == 0 &&
      move(read, answer, sizeof answer) == 0 && (uint32_t)answer[1] <= LONGEST &&
      move(read, rest, (uint32_t)answer[1]) == 0) {
    result = answer[0];
    memcpy(in, rest, (uint32_t)answer[1] < room ? (uint32_t)answer[1] : room);
  } else if (line >= 0) {
    real_close(line);
    line = -1;
  }
  pthread_mutex_unlock(&lock);
  return result;
}

static int failed(int32_t result) {
  errno = -result;
  return -1;
}

/* A descriptor of the kernel's own for a node of ours; whoever waits for an event on it waits in vain. */
static int descriptor(int32_t node) {
  int fd = eventfd(0, EFD_CLOEXEC);
  if (fd < 0) return -1;
  if (fd >= DESCRIPTORS) {
    real_close(fd);
    return failed(-EMFILE);
  }
  nodes[fd] = node;
  return fd;
}

static int32_t node(int fd) { return fd >= 0 && fd < DESCRIPTORS ? nodes[fd] : 0; }

static int text(const char *words) {
  int fd = memfd_create("words", MFD_CLOEXEC);
  if (fd >= 0 && (write(fd, words, strlen(words)) < 0 || lseek(fd, 0, SEEK_SET) < 0)) {
    real_close(fd);
    return -1;
  }
  return fd;
}

static int ours(const char *path) {
  return strncmp(path, "/dev/spidev", 11) == 0 || strcmp(path, "/dev/" CHIP) == 0;
}

static int opened(const char *path, int flags, mode_t mode) {
  if (ours(path)) {
    int32_t result = ask(0, OPEN, path, (uint32_t)strlen(path), NULL, 0);
    return result < 0 ? failed(result) : descriptor(result);
  }
  if (strcmp(path, "/sys/bus/gpio/devices/" CHIP "/dev") == 0) return text("254:0\n");
  if (strcmp(path, "/proc/device-tree/model") == 0) return text("Raspberry Pi 4 Model B Rev 1.4");
  return real_open(path, flags, mode);
}

static mode_t mode_of(int flags, va_list rest) {
  return flags & (O_CREAT | __O_TMPFILE) ? (mode_t)va_arg(rest, int) : 0;
}

int open(const char *path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t mode = mode_of(flags, rest);
  va_end(rest);
  return opened(path, flags, mode);
}

int open64(const char *path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t mode = mode_of(flags, rest);
  va_end(rest);
  return opened(path, flags | O_LARGEFILE, mode);
}

int close(int fd) {
  if (node(fd)) {
    ask(nodes[fd], CLOSE, NULL, 0, NULL, 0);
    nodes[fd] = 0;
  }
  return real_close(fd);
}

/* One transfer a message: all that is used here. */
static int transfer(int fd, unsigned long request, struct spi_ioc_transfer *t) {
  if (_IOC_SIZE(request) != sizeof *t) return failed(-EINVAL);
  if (t->len > LONGEST) return failed(-EMSGSIZE);
  int32_t result = ask(nodes[fd], (uint32_t)request, (void *)(uintptr_t)t->tx_buf, t->len, (void *)(uintptr_t)t->rx_buf, t->len);
  return result < 0 ? failed(result) : result;
}

int ioctl(int fd, unsigned long request, ...) {
  static int (*real)(int, unsigned long, ...);
  va_list rest;
  va_start(rest, request);
  void *argument = va_arg(rest, void *);
  va_end(rest);
  request &= 0xFFFFFFFFul; /* JNA and others hand over a sign with it */
  if (!node(fd)) {
    if (!real) real = (int (*)(int, unsigned long, ...))dlsym(RTLD_NEXT, "ioctl");
    return real(fd, request, argument);
  }
  if (_IOC_TYPE(request) == SPI_IOC_MAGIC && _IOC_NR(request) == 0) return transfer(fd, request, argument);
  uint32_t size = _IOC_SIZE(request);
  int32_t result = ask(nodes[fd], (uint32_t)request, argument, size, argument, size);
  if (result < 0) return failed(result);
  if (request == GPIO_GET_LINEHANDLE_IOCTL) {
    struct gpiohandle_request *lines = argument;
    lines->fd = descriptor(result);
    return lines->fd < 0 ? -1 : 0;
  }
  if (request == GPIO_GET_LINEEVENT_IOCTL) {
    struct gpioevent_request *event = argument;
    event->fd = descriptor(result);
    return event->fd < 0 ? -1 : 0;
  }
  return result;
}

static int chip_state(struct stat *state) {
  memset(state, 0, sizeof *state);
  state->st_mode = S_IFCHR | 0660;
  state->st_rdev = makedev(CHIP_MAJOR, CHIP_MINOR);
  return 0;
}

int stat(const char *path, struct stat *state) {
  return ours(path) ? chip_state(state) : REAL(int, "stat", const char *, struct stat *)(path, state);
}

int stat64(const char *path, struct stat64 *state) {
  return ours(path) ? chip_state((struct stat *)state) : REAL(int, "stat64", const char *, struct stat64 *)(path, state);
}

int lstat(const char *path, struct stat *state) {
  return ours(path) ? chip_state(state) : REAL(int, "lstat", const char *, struct stat *)(path, state);
}

int access(const char *path, int mode) {
  if (ours(path) || strncmp(path, "/sys/bus/gpio/devices/" CHIP, 31) == 0) return 0;
  return REAL(int, "access", const char *, int)(path, mode);
}

char *realpath(const char *path, char *into) {
  if (strcmp(path, "/sys/dev/char/254:0/subsystem") == 0) path = "/sys/bus/gpio";
  else if (!ours(path)) return REAL(char *, "realpath", const char *, char *)(path, into);
  return into ? strcpy(into, path) : strdup(path);
}

int scandir(const char *directory, struct dirent ***list, int (*wanted)(const struct dirent *),
            int (*order)(const struct dirent **, const struct dirent **)) {
  struct dirent *entry;
  if (strcmp(directory, "/dev") != 0) {
    return REAL(int, "scandir", const char *, struct dirent ***, int (*)(const struct dirent *),
                int (*)(const struct dirent **, const struct dirent **))(directory, list, wanted, order);
  }
  entry = calloc(1, sizeof *entry);
  *list = malloc(sizeof **list);
  if (!entry || !*list) return failed(-ENOMEM);
  strcpy(entry->d_name, CHIP);
  (*list)[0] = entry;
  return !wanted || wanted(entry) ? 1 : (free(entry), 0);
}
