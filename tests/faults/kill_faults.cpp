// The program killed, the disk full, a second copy: at every event boundary of a scripted test and
// at the writes between. Nothing confirmed may be lost, and the test must go on to the very same
// record.
// Usage: kill_faults SCRIPT FOLDER STRIDE. One line `row | tried | held` a fault.
// `kill_faults open JOURNAL` is the second copy: exit status 3 where it is refused as one.
#include "tests/faults/scripted_world.hpp"
#include "tests/support/lossy_disk.hpp"

#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fmt/core.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

using namespace qb;

constexpr int refused_as_second = 3;

// The whole test as it should be, and where it is played again.
struct reference {
  std::vector<event> events;
  std::vector<std::string> texts;
  std::string path; // of the journal that is tried
};

void clean(const std::string& path) {
  std::filesystem::remove(path);
  std::filesystem::remove(path + "-journal");
}

// What a person pressed, with the clocks of that moment; what the clocks did follows by itself.
bool is_pressed(const event& e) {
  return !std::holds_alternative<clock_changed>(e.what);
}

// Everything from where the record stands to the end; "" where it all was accepted.
std::string go_on(engine& e, const reference& whole, std::size_t until,
                  const std::function<void(std::size_t)>& confirmed) {
  for (std::size_t i = e.events().size(); i < until; ++i) {
    if (!is_pressed(whole.events[i])) continue;
    const auto done = e.submit(command{whole.events[i].what}, whole.events[i].at);
    if (!done) return sentence(done.error());
    confirmed(e.events().size());
  }
  return "";
}
void nobody_listens(std::size_t) {}

// What is wrong with what is left, and with going on from it.
std::string fault_after(const reference& whole, std::size_t confirmed) {
  const lossy_disk quick(0);
  auto again = open_journal(whole.path);
  if (!again) return "it cannot be opened again: " + sentence(again.error());
  const auto kept = texts_of(again->keeper.journal());
  if (kept.size() < confirmed)
    return fmt::format("{} events confirmed, {} kept", confirmed, kept.size());
  if (kept.size() > whole.texts.size() ||
      !std::equal(kept.begin(), kept.end(), whole.texts.begin()))
    return "what is kept is not the beginning of the whole test";
  engine e(again->keeper, std::move(again->events));
  const std::string stopped = go_on(e, whole, whole.events.size(), nobody_listens);
  if (!stopped.empty()) return "it does not go on: " + stopped;
  return texts_of(again->keeper.journal()) == whole.texts ? "" : "it goes on to another record";
}

// In a child: plays until it is killed, after so many events or in the middle of a change to the
// disk, and says by a pipe what was confirmed. Answers how far that was.
std::size_t played_and_killed(const reference& whole, std::size_t after, std::int64_t change) {
  std::array<int, 2> ends{};
  QB_BELIEVE(pipe(ends.data()) == 0);
  const pid_t child = fork();
  QB_BELIEVE(child >= 0);
  if (child == 0) {
    const lossy_disk disk(change, lossy_disk::honesty::killing);
    auto journal = open_journal(whole.path);
    if (journal) {
      engine e(journal->keeper, {});
      const auto say = [&](std::size_t n) {
        if (write(ends[1], &n, sizeof n) != sizeof n || n >= after) std::raise(SIGKILL);
      };
      (void)go_on(e, whole, whole.events.size(), say);
    }
    _exit(0);
  }
  close(ends[1]);
  std::size_t confirmed = 0;
  std::size_t said = 0;
  while (read(ends[0], &said, sizeof said) == sizeof said)
    confirmed = said;
  close(ends[0]);
  int status = 0;
  waitpid(child, &status, 0);
  QB_BELIEVE(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
  return confirmed;
}

// The disk lets no file grow from that change on. The person presses again and again, with the
// entry's own time; then space returns. `met` says whether the disk was full at all.
std::string fault_while_full(const reference& whole, std::int64_t change, bool& met) {
  lossy_disk disk(change, lossy_disk::honesty::filling_up);
  std::size_t confirmed = 0;
  for (int attempt = 0; attempt < 4; ++attempt) {
    constexpr int vain = 3; // attempts while it is full
    if (attempt == vain) disk.space_returns();
    auto journal = open_journal(whole.path);
    if (!journal) continue; // said to the person; tried again
    const auto kept = texts_of(journal->keeper.journal());
    if (kept.size() < confirmed)
      return fmt::format("{} confirmed, {} kept", confirmed, kept.size());
    engine e(journal->keeper, std::move(journal->events));
    const auto note = [&](std::size_t n) { confirmed = n; };
    const std::string refused = go_on(e, whole, whole.events.size(), note);
    met = met || disk.is_full();
    if (refused.empty()) return "";
    if (!e.failure()) return "refused otherwise than by the disk: " + refused;
  }
  return "it was not written when space returned";
}

std::string fault_of_full_disk(const reference& whole, std::int64_t change, bool& met) {
  const std::string wrong = fault_while_full(whole, change, met);
  return wrong.empty() ? fault_after(whole, whole.events.size()) : wrong;
}

int status_of_second_copy(const char* me, const std::string& path) {
  std::string open = "open";
  std::string program = me;
  std::string journal = path;
  std::array<char*, 4> words{program.data(), open.data(), journal.data(), nullptr};
  pid_t child = 0;
  if (posix_spawn(&child, "/proc/self/exe", nullptr, nullptr, words.data(), environ) != 0)
    return -1;
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

int as_second_copy(const char* path) {
  const auto journal = open_journal(path);
  if (journal) return 0;
  const bool as_second = journal.error().kind == refusal_kind::machine &&
                         journal.error().found.find("second copy") != std::string::npos;
  return as_second ? refused_as_second : 1;
}

struct row {
  std::string name;
  int tried{0};
  int held{0};

  void mark(std::int64_t where, const std::string& wrong) {
    ++tried;
    held += wrong.empty() ? 1 : 0;
    if (!wrong.empty()) fmt::print("FAIL {} {}: {}\n", name, where, wrong);
  }
  [[nodiscard]] bool said() const {
    fmt::print("{} | {} | {}\n", name, tried, held);
    return tried > 0 && held == tried;
  }
};

bool kills(const reference& whole, std::int64_t changes, std::int64_t stride) {
  row at{"killed at an event boundary"};
  row inside{"killed in the middle of a write"};
  for (std::size_t n = 1; n <= whole.events.size(); ++n) {
    if (!is_pressed(whole.events[n - 1])) continue;
    clean(whole.path);
    const std::size_t confirmed = played_and_killed(whole, n, 0);
    at.mark(static_cast<std::int64_t>(n),
            confirmed == n ? fault_after(whole, confirmed) : "it was killed elsewhere");
  }
  for (std::int64_t change = 1; change <= changes; change += stride) {
    clean(whole.path);
    const std::size_t confirmed = played_and_killed(whole, whole.events.size() + 1, change);
    inside.mark(change, fault_after(whole, confirmed));
  }
  const bool one = at.said();
  return inside.said() && one;
}

bool full_disks(const reference& whole, std::int64_t changes, std::int64_t stride) {
  row full{"disk full at a write, then space again"};
  int met = 0;
  for (std::int64_t change = 1; change <= changes; change += stride) {
    clean(whole.path);
    bool was_full = false;
    full.mark(change, fault_of_full_disk(whole, change, was_full));
    met += was_full ? 1 : 0;
  }
  // Only at the last change of all nothing is left to be written.
  if (met + 3 < full.tried) fmt::print("FAIL only {} of {} disks were full\n", met, full.tried);
  return full.said() && met + 3 >= full.tried;
}

bool second_copies(const reference& whole, const char* me) {
  row second{"a second copy is opened"};
  clean(whole.path);
  {
    auto journal = open_journal(whole.path);
    if (!journal) return false;
    engine e(journal->keeper, {});
    for (std::size_t n = 1; n <= whole.events.size(); ++n) {
      const std::string stopped = go_on(e, whole, n, nobody_listens);
      const bool refused = status_of_second_copy(me, whole.path) == refused_as_second;
      second.mark(static_cast<std::int64_t>(n), !stopped.empty() ? stopped
                                                : refused        ? ""
                                                                 : "it was not refused");
    }
  }
  second.mark(0, status_of_second_copy(me, whole.path) == 0
                     ? fault_after(whole, whole.events.size())
                     : "refused although the first is gone");
  return second.said();
}

} // namespace

int main(int argc, char** argv) {
  if (argc == 3 && std::strcmp(argv[1], "open") == 0) return as_second_copy(argv[2]);
  constexpr int words = 4;
  if (argc != words) return 2;
  const auto w = load(argv[1]);
  if (!w) {
    fmt::print("FAIL {}\n", sentence(w.error()));
    return 1;
  }
  std::filesystem::create_directories(argv[2]);
  reference whole{{}, {}, std::string(argv[2]) + "/test.journal"};
  std::int64_t changes = 0;
  clean(whole.path);
  {
    const lossy_disk disk(0);
    auto journal = open_journal(whole.path);
    if (!journal) return 1;
    engine e(journal->keeper, {});
    if (!rehearsal::play(w->script, w->parts, e, [](const engine&) {})) return 1;
    whole.events = e.events();
    whole.texts = texts_of(journal->keeper.journal());
    changes = disk.changes();
  }
  const std::int64_t stride = std::max(1LL, std::atoll(argv[3]));
  bool good = kills(whole, changes, stride);
  good = full_disks(whole, changes, stride) && good;
  good = second_copies(whole, argv[0]) && good;
  return good ? 0 : 1;
}
