// Power cut at every single write, truncation and sync of a whole scripted test, with what was not
// synced kept, dropped or garbled: whatever was confirmed before must be in the journal after.
// Usage: power_cut SCRIPT FOLDER STRIDE SEEDS. One line a fault that shows; last the counts.
// A disk that lies about syncing is tried too, and must be found out.
#include "tests/faults/scripted_world.hpp"
#include "tests/support/lossy_disk.hpp"

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fmt/core.h>
#include <fstream>

namespace {

using namespace qb;

struct played {
  std::vector<std::string> confirmed; // the events' canonical text, as far as they were confirmed
  bool ended{false};
};

played play_until_power_goes(const world& w, const std::string& path) {
  played out;
  auto journal = open_journal(path);
  if (!journal) return out;
  engine e(journal->keeper, {});
  const auto keep = [&](const engine&) { out.confirmed = texts_of(journal->keeper.journal()); };
  out.ended = rehearsal::play(w.script, w.parts, e, keep).has_value();
  return out;
}

void put_file(const std::string& path, const std::optional<std::vector<char>>& bytes) {
  std::filesystem::remove(path);
  if (!bytes) return;
  std::ofstream file(path, std::ios::binary);
  file.write(bytes->data(), static_cast<std::streamsize>(bytes->size()));
}

// What is wrong with what the power cut left; empty for nothing.
std::string fault_after(const std::string& path, const played& before,
                        const std::vector<std::string>& whole) {
  auto again = open_journal(path);
  if (!again) return before.confirmed.empty() ? "" : sentence(again.error());
  const auto kept = texts_of(again->keeper.journal());
  if (kept.size() < before.confirmed.size())
    return fmt::format("{} events confirmed, {} kept", before.confirmed.size(), kept.size());
  if (kept.size() > whole.size() || !std::equal(kept.begin(), kept.end(), whole.begin()))
    return "what is kept is not the beginning of the whole test";
  return "";
}

// A journal, the side file SQLite keeps beside it, and the test played on them.
class cut_test {
public:
  cut_test(const world& w, const std::string& folder) : w_(w), path_(folder + "/test.journal") {
    std::filesystem::create_directories(folder);
  }

  // The whole test on a disk that keeps everything; false where it could not be played.
  [[nodiscard]] bool play_whole() {
    clean();
    const lossy_disk disk(0);
    const played all = play_until_power_goes(w_, path_);
    whole_ = all.confirmed;
    changes_ = disk.changes();
    return all.ended;
  }

  // What is wrong after power went at that change; empty for nothing.
  [[nodiscard]] std::string fault_of_cut(std::int64_t fatal, std::uint64_t seed,
                                         lossy_disk::honesty how) {
    clean();
    std::optional<std::vector<char>> journal;
    std::optional<std::vector<char>> side;
    {
      const lossy_disk disk(fatal, how);
      before_ = play_until_power_goes(w_, path_);
      journal = disk.left_of(path_, seed);
      side = disk.left_of(side_path(), seed ^ 1U);
    }
    put_file(path_, journal);
    put_file(side_path(), side);
    return fault_after(path_, before_, whole_);
  }

  [[nodiscard]] std::int64_t changes() const { return changes_; }
  [[nodiscard]] std::size_t events() const { return whole_.size(); }
  [[nodiscard]] std::size_t confirmed() const { return before_.confirmed.size(); }

private:
  [[nodiscard]] std::string side_path() const { return path_ + "-journal"; }
  void clean() const {
    std::filesystem::remove(path_);
    std::filesystem::remove(side_path());
  }

  const world& w_;
  std::string path_;
  std::vector<std::string> whole_;
  std::int64_t changes_{0};
  played before_;
};

} // namespace

int main(int argc, char** argv) {
  constexpr int words = 5;
  if (argc != words) return 2;
  const auto w = load(argv[1]);
  if (!w) {
    fmt::print("FAIL {}\n", sentence(w.error()));
    return 1;
  }
  const std::int64_t stride = std::atoll(argv[3]);
  const auto seeds = static_cast<std::uint64_t>(std::atoll(argv[4]));
  cut_test test(*w, argv[2]);
  int passed = 0;
  int failed = 0;
  const auto mark = [&](const std::string& fault) {
    (fault.empty() ? passed : failed) += 1;
    if (!fault.empty()) fmt::print("FAIL {}\n", fault);
  };
  mark(test.play_whole() ? "" : "the whole test could not be played");
  int before_the_last = 0;
  int lies_found = 0;
  for (std::int64_t fatal = 1; fatal <= test.changes(); fatal += stride) {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
      const std::uint64_t fate = static_cast<std::uint64_t>(fatal) * seeds + seed;
      const std::string fault = test.fault_of_cut(fatal, fate, lossy_disk::honesty::honest);
      mark(fault.empty() ? ""
                         : fmt::format("power gone at change {}, seed {}: {}", fatal, seed, fault));
      before_the_last += test.confirmed() < test.events() ? 1 : 0;
    }
    const bool found = !test.fault_of_cut(fatal, 0, lossy_disk::honesty::lying).empty();
    lies_found += found ? 1 : 0;
  }
  mark(lies_found > 0 ? "" : "a disk that lies about syncing was not found out");
  fmt::print("{} changes to the disk in {} events; power gone before the last event {} times; "
             "a lying disk found out {} times\n",
             test.changes(), test.events(), before_the_last, lies_found);
  fmt::print("power-cut: {} passed, {} failed\n", passed, failed);
  return failed == 0 ? 0 : 1;
}
