// Writing files where the person wants them: a folder of this device, or a drive that may be pulled
// out at any moment. Nothing is called written that was not read back from where it still is.
//
// What is to be written is a wish kept until the page that says so has been seen (a drive takes
// seconds, in which nothing is drawn); then it is carried out here and what became of it is told.
#pragma once

#include "app/handover/export_keys.hpp"
#include "app/handover/written_together.hpp"
#include "app/machine/machine.hpp"
#include "app/patient/screens/view.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline shells {

// From the wish to write, over the page that says so, to what was written or stood against it.
class file_writing {
public:
  // `data` is the folder of the device's tests.
  file_writing(machine& m, const words& t, std::string data)
      : machine_(m), words_(t), data_(std::move(data)) {}

  // The places there are while a page asks for one, else none: the own folder first (what lies in
  // it is erased with the test, so on a shared device it would be no hand-over), then the drives;
  // rows stay where they are as long as the page is shown.
  void look_for_places(const ui_state& u, bool shared_device);
  [[nodiscard]] const std::vector<export_place>& places() const { return places_; }

  // The wish is to be carried out once its page could be read.
  void later(wish w, export_place to, duration evenly);
  [[nodiscard]] bool waiting() const { return waits_.has_value(); }
  [[nodiscard]] const std::optional<export_place>& writing_to() const { return waits_for_; }
  // The wish whose time has come, and where to; it waits no longer.
  [[nodiscard]] std::optional<std::pair<wish, export_place>> due(duration evenly);

  // Writes by `write` and keeps what was written for `page`; or answers, in the person's words,
  // what stood against it. A drive that went meanwhile leaves an empty folder of this device
  // behind, into which the writing may have gone well.
  using writer = std::function<result<handover::exported_files>(disk&, const std::string& folder)>;
  [[nodiscard]] std::optional<written_files> write(const export_place& to, side_page page,
                                                   const writer& how, std::string& trouble);

  [[nodiscard]] const written_files& written() const { return written_; }
  void show(written_files files) { written_ = std::move(files); }
  void seen() { written_ = written_files{}; }
  // Nothing waits and nothing was written: another test is shown.
  void forget();

  [[nodiscard]] handover::export_keys keys() const {
    return handover::device_keys(machine_.files(), data_);
  }

private:
  machine& machine_;
  const words& words_;
  std::string data_;
  std::vector<export_place> places_;
  std::optional<wish> waits_;
  std::optional<export_place> waits_for_;
  duration waits_since_{0};
  written_files written_;
};

} // namespace qb::inline shells
