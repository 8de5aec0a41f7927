// Where a command's lines go, and what all commands share.
#pragma once

#include "core/base/result.hpp"
#include "core/report/report.hpp"

#include <cstdio>
#include <functional>
#include <string>

namespace qb::lab {

// Where lines go. `err` gets one line a refusal: file, place, found, expected, no personal data.
struct console {
  std::function<void(const std::string&)> out;
  std::function<void(const std::string&)> err;
  std::function<void(const std::string&)> data{out}; // a file's bytes, to whoever asked for "-"
  // A terminal beside `err` on which a line may be written over; empty where there is none.
  std::function<void(const std::string&)> terminal{};
};

// Lines into those streams: the one door to a terminal, through which nothing passes that moves it
// or cannot be seen (core/base/visible.hpp). A file's bytes pass as they are.
[[nodiscard]] console console_on(std::FILE* out, std::FILE* err);

// What is printed: sentences and tables for people, or one JSON value for scripts.
enum class output_format { text, json };

// What all commands share.
struct shared_options {
  std::string store; // the store's path
  output_format format{output_format::text};
  zone_loader zones;
  own_files own;
};

// Prints the refusal on `err`; answers its exit status.
int say_no(const refusal& no, const console& to);

} // namespace qb::lab
