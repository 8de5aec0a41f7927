// The lock of logind through the system bus, and the X server's own suspension of its saver.
// The X server is spoken to on a connection of our own: it undoes the suspension when that closes,
// and the window's library need not be one that shows its connection. In a Wayland session it is
// not the X server that blanks the screen, so its yes counts for nothing there.
#include "app/machine/awake.hpp"

#include <X11/Xlib.h>
#include <X11/extensions/scrnsaver.h>
#include <systemd/sd-bus.h>

#include <fcntl.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <ctime>

namespace qb::inline machines {

namespace {

constexpr std::uint64_t patience_us = 1'000'000;

std::uint64_t now_us() {
  timespec t{};
  (void)clock_gettime(CLOCK_MONOTONIC, &t);
  return static_cast<std::uint64_t>(t.tv_sec) * 1'000'000 +
         static_cast<std::uint64_t>(t.tv_nsec) / 1000;
}

// A bus connection, closed when it goes out of scope.
struct bus {
  sd_bus* to{nullptr};
  bus() = default;
  bus(const bus&) = delete;
  bus& operator=(const bus&) = delete;
  ~bus() {
    if (to != nullptr) sd_bus_close_unref(to);
  }

  // Connects; the library's own patience with a bus that accepts and says nothing is minutes.
  int connect() {
    const std::uint64_t until = now_us() + patience_us;
    int code = sd_bus_open_system(&to);
    while (code >= 0) {
      code = sd_bus_process(to, nullptr);
      if (code < 0) break;
      if (sd_bus_is_ready(to) > 0) return 0;
      const std::uint64_t at = now_us();
      if (at >= until) return -ETIMEDOUT;
      if (code == 0) code = sd_bus_wait(to, until - at);
    }
    return code;
  }
};

struct lock_answer {
  int lock{-1};
  std::string why_not;
};

// The lock holds as long as the file it answers with is open.
lock_answer ask_logind(const std::string& who, const std::string& why) {
  bus b;
  if (const int code = b.connect(); code < 0) return {-1, std::strerror(-code)};
  (void)sd_bus_set_method_call_timeout(b.to, patience_us);
  sd_bus_error error{}; // what SD_BUS_ERROR_NULL is, which is C
  sd_bus_message* reply = nullptr;
  lock_answer out;
  int code = sd_bus_call_method(b.to, "org.freedesktop.login1", "/org/freedesktop/login1",
                                "org.freedesktop.login1.Manager", "Inhibit", &error, &reply, "ssss",
                                "sleep:idle", who.c_str(), why.c_str(), "block");
  int lent = -1; // belongs to the reply
  if (code >= 0) code = sd_bus_message_read(reply, "h", &lent);
  if (code >= 0) out.lock = fcntl(lent, F_DUPFD_CLOEXEC, 3);
  if (out.lock < 0) out.why_not = error.message != nullptr ? error.message : std::strerror(-code);
  sd_bus_error_free(&error);
  sd_bus_message_unref(reply);
  return out;
}

struct connection {
  Display* to{nullptr};
  connection() = default;
  connection(const connection&) = delete;
  connection& operator=(const connection&) = delete;
  ~connection() {
    if (to != nullptr) XCloseDisplay(to);
  }

  // Suspends the X server's saver and its power saving, where it can.
  bool suspend_saver() {
    to = XOpenDisplay(nullptr);
    if (to == nullptr) return false;
    int events = 0;
    int errors = 0;
    int major = 0;
    int minor = 0;
    if (XScreenSaverQueryExtension(to, &events, &errors) == 0) return false;
    if (XScreenSaverQueryVersion(to, &major, &minor) == 0) return false;
    if (major < 1 || (major == 1 && minor < 1)) return false; // suspending came with 1.1
    XScreenSaverSuspend(to, True);
    XSync(to, False);
    const char* wayland = std::getenv("WAYLAND_DISPLAY");
    return wayland == nullptr || *wayland == '\0';
  }
};

} // namespace

struct awake::inside {
  lock_answer sleep;
  connection x;
  bool screen{false};

  inside() = default;
  inside(const inside&) = delete;
  inside& operator=(const inside&) = delete;
  ~inside() {
    if (sleep.lock >= 0) (void)close(sleep.lock);
  }
};

awake::awake() = default;
awake::~awake() = default;

void awake::hold(const std::string& who, const std::string& why) {
  if (inside_) return;
  inside_ = std::make_unique<inside>();
  inside_->sleep = ask_logind(who, why);
  inside_->screen = inside_->x.suspend_saver();
}

void awake::let_go() {
  inside_.reset();
}

bool awake::sleep_held() const {
  return inside_ && inside_->sleep.lock >= 0;
}

bool awake::screen_held() const {
  return inside_ && inside_->screen;
}

bool awake::held() const {
  return sleep_held() && screen_held();
}

std::string awake::why_not() const {
  return inside_ ? inside_->sleep.why_not : "";
}

} // namespace qb::inline machines
