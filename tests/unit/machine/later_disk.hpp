// A machine whose writes become durable later, as a browser's do: they lie in files that all read,
// and survive a power cut only once the store said so. It may refuse them instead.
#pragma once

#include "app/machine/durable.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>

namespace qb::test {

// Files below one folder. At once as on a disk, until it is told to be slow.
class later_disk : public durable_writes {
public:
  explicit later_disk(std::string folder) : folder_(std::move(folder)) {}

  [[nodiscard]] written_mark all_written() override {
    ++asked_;
    if (!slow) catch_up();
    return asked_;
  }
  [[nodiscard]] bool is_durable(written_mark all) const override { return all <= durable_; }
  [[nodiscard]] std::optional<refusal> failure() const override { return failure_; }
  void back_to_durable(const std::string& path) override {
    if (!failure_) return;
    failure_.reset();
    put_back(path);
  }

  // All that was written by now is durable.
  void catch_up() {
    durable_ = asked_;
    files_ = all_files();
  }
  // What is on its way is refused, and so is what follows until a file was taken back.
  void refuse() { failure_ = refusal{refusal_kind::machine, "", "write", "no room", "room"}; }
  // Power goes, and the program with it: what was not durable never was.
  void power_cut() {
    for (const auto& [path, bytes] : all_files())
      if (files_.count(path) == 0) std::filesystem::remove(path);
    for (const auto& [path, bytes] : files_)
      put_back(path);
    durable_ = asked_;
    failure_.reset();
  }

  bool slow{false};

private:
  [[nodiscard]] std::map<std::string, std::string> all_files() const {
    std::map<std::string, std::string> out;
    for (const auto& one : std::filesystem::recursive_directory_iterator(folder_)) {
      // Of SQLite's rollback journals none is in use between two frames.
      const std::string path = one.path().string();
      if (!one.is_regular_file() || path.ends_with("-journal")) continue;
      std::ifstream in(path, std::ios::binary);
      out[path] = {std::istreambuf_iterator<char>(in), {}};
    }
    return out;
  }
  void put_back(const std::string& path) const {
    std::filesystem::remove(path);
    std::filesystem::remove(path + "-journal");
    const auto kept = files_.find(path);
    if (kept != files_.end()) std::ofstream(path, std::ios::binary) << kept->second;
  }

  std::string folder_;
  std::map<std::string, std::string> files_; // as they are durable
  written_mark asked_{0};
  written_mark durable_{0};
  std::optional<refusal> failure_;
};

} // namespace qb::test
