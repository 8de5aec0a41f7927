// When what was written to files of our own survives a power cut.
// On a disk that is when the write returns (app/machine/files.hpp, SQLite's FULL). In a browser all
// files of ours lie in memory; they are put into its store together, and it says later that they
// are there.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace qb::inline machines {

// All that was written before one moment, as a number that grows.
using written_mark = std::int64_t;

// Outlives whatever it is passed to.
class durable_writes {
public:
  durable_writes() = default;
  durable_writes(const durable_writes&) = delete;
  durable_writes& operator=(const durable_writes&) = delete;
  virtual ~durable_writes() = default;

  // Hands over what was written by now, where that is not done yet.
  [[nodiscard]] virtual written_mark all_written() = 0;
  // Whether all of it survives a power cut.
  [[nodiscard]] virtual bool is_durable(written_mark all) const = 0;
  // Why the last of it could not be handed over, until a file was taken `back_to_durable`.
  [[nodiscard]] virtual std::optional<refusal> failure() const = 0;
  // After a failure: the file at `path`, which nobody has open, as a power cut now would leave it.
  // What was written to it and could not be handed over is gone, so that whoever rereads it is told
  // no more than the truth. Without a failure nothing.
  virtual void back_to_durable(const std::string& path) = 0;
};

// This machine's own.
class own_durable : public durable_writes {
public:
  [[nodiscard]] written_mark all_written() override;
  [[nodiscard]] bool is_durable(written_mark all) const override;
  [[nodiscard]] std::optional<refusal> failure() const override;
  void back_to_durable(const std::string& path) override;
};

} // namespace qb::inline machines
