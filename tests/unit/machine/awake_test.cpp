// A device that does not agree to stay awake is an answer, and it comes soon: the window waits for
// it. What happens where it agrees is tried in the real window, against a made-up login manager.
#include "app/machine/awake.hpp"

#include <catch2/catch.hpp>

#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <string>

using namespace qb;

namespace {

// A variable of the environment, as it was again afterwards.
class set_for_now {
public:
  set_for_now(const char* name, const std::string& value) : name_(name) {
    const char* before = std::getenv(name);
    had_ = before != nullptr;
    if (had_) before_ = before;
    setenv(name, value.c_str(), 1);
  }
  set_for_now(const set_for_now&) = delete;
  set_for_now& operator=(const set_for_now&) = delete;
  ~set_for_now() {
    if (had_) {
      setenv(name_, before_.c_str(), 1);
    } else {
      unsetenv(name_);
    }
  }

private:
  const char* name_;
  bool had_{false};
  std::string before_;
};

// A bus that takes a connection and never says a word.
class silent_bus {
public:
  silent_bus() : path_((std::filesystem::temp_directory_path() / "qb-XXXXXX").string()) {
    REQUIRE(mkdtemp(path_.data()) != nullptr);
    sockaddr_un at{};
    at.sun_family = AF_UNIX;
    address().copy(at.sun_path, sizeof at.sun_path - 1);
    socket_ = socket(AF_UNIX, SOCK_STREAM, 0);
    REQUIRE(bind(socket_, reinterpret_cast<const sockaddr*>(&at), sizeof at) == 0);
    REQUIRE(listen(socket_, 4) == 0);
  }
  silent_bus(const silent_bus&) = delete;
  silent_bus& operator=(const silent_bus&) = delete;
  ~silent_bus() {
    (void)close(socket_);
    std::filesystem::remove_all(path_);
  }
  [[nodiscard]] std::string address() const { return path_ + "/bus"; }

private:
  std::string path_;
  int socket_{-1};
};

double seconds_to_hold(awake& device) {
  const auto began = std::chrono::steady_clock::now();
  device.hold("Quarterbreath", "A breath test is running");
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
  return took.count();
}

} // namespace

TEST_CASE("without a system bus and a display the device does not agree, and says why at once") {
  const set_for_now bus("DBUS_SYSTEM_BUS_ADDRESS", "unix:path=/nowhere/at/all");
  const set_for_now display("DISPLAY", "");
  awake device;
  CHECK_FALSE(device.asked());
  CHECK(seconds_to_hold(device) < 1.0);
  CHECK(device.asked());
  CHECK_FALSE(device.sleep_held());
  CHECK_FALSE(device.screen_held());
  CHECK_FALSE(device.held());
  CHECK_FALSE(device.why_not().empty());
  device.let_go();
  CHECK_FALSE(device.asked());
  CHECK(device.why_not().empty());
}

TEST_CASE("a system bus that never answers keeps nobody waiting for more than a second or two") {
  const silent_bus silent;
  const set_for_now bus("DBUS_SYSTEM_BUS_ADDRESS", "unix:path=" + silent.address());
  const set_for_now display("DISPLAY", "");
  awake device;
  CHECK(seconds_to_hold(device) < 2.5);
  CHECK_FALSE(device.sleep_held());
  CHECK_FALSE(device.why_not().empty());
}
