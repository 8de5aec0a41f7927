// `quarterbreath erase`: a test taken off this device without the window; without --sure it only
// says what would go and what would stay.
#include "app/handover/erase_test.hpp"
#include "app/handover/whose_file.hpp"
#include "app/machine/surroundings.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/journal_keeper.hpp"
#include "app/store/salvaged_journal.hpp"
#include "core/protocol/kit_number.hpp"
#include "core/session/state.hpp"

#include <filesystem>
#include <fmt/core.h>

namespace qb::patient {

namespace {

// One test of this device, as far as it is needed to name it.
struct kept_test {
  std::string journal;
  std::string id;
  std::string kit_number; // empty before the person is told
  bool handed_over{false};
};

result<kept_test> look_into(const std::string& journal) {
  const auto open = open_journal(journal);
  if (!open && is_held_elsewhere(open.error())) return tl::unexpected(open.error());
  // A damaged one is named as far as it can be read.
  const state s = fold_events(open ? open->events : read_damaged(journal, {}).events);
  return kept_test{journal, std::filesystem::path(journal).stem().string(),
                   s.person ? s.person->kit_number : "", s.exported_at.has_value()};
}

// The tests of that kit number, or the one of that id.
result<std::vector<kept_test>> tests_named(const std::string& data, const std::string& wanted) {
  std::vector<kept_test> out;
  for (const std::string& journal : handover::journals_in(tests_folder(data, false))) {
    auto one = look_into(journal);
    if (!one) return tl::unexpected(one.error());
    if (one->id == wanted || kit_key(one->kit_number) == kit_key(wanted))
      out.push_back(std::move(*one));
  }
  return out;
}

std::string ids_of(const std::vector<kept_test>& tests) {
  std::string out;
  for (const kept_test& one : tests)
    out += (out.empty() ? "" : ", ") + one.id;
  return out;
}

void say_what_goes(disk& device, const std::string& data, const kept_test& one) {
  tell("Kit {}, test {}: {}\n", one.kit_number.empty() ? "-" : one.kit_number, one.id,
       one.handed_over ? "saved for the laboratory" : "not saved for the laboratory yet");
  tell("Gone from this device would be, for good:\n  {}\n", one.journal);
  for (const std::string& path : handover::files_of_test(device, copies_folder(data), one.id))
    tell("  {}\n", path);
  tell("  all practice\n"
       "Files on a drive, in a phone or with others stay, and what the laboratory has.\n"
       "Nothing is erased yet. To erase it, say --sure.\n");
}

} // namespace

int erase_command(const erase_options& o) {
  const auto data =
      o.data.empty() ? user_data_folder("quarterbreath") : result<std::string>(o.data);
  if (!data) return say_no(data.error());
  own_disk device;
  if (const auto done = handover::finish_erasing(device, *data); !done) return say_no(done.error());
  const auto tests = tests_named(*data, o.test);
  if (!tests) return say_no(tests.error());
  if (tests->empty())
    return say_no({refusal_kind::missing, tests_folder(*data, false), o.test, "no such test",
                   "the kit number or the id of a test on this device"});
  if (tests->size() > 1)
    return say_no({refusal_kind::malformed, "", o.test, "more than one test of this kit number",
                   "one of " + ids_of(*tests)});
  const kept_test& one = tests->front();
  if (!o.sure) {
    say_what_goes(device, *data, one);
    return 0;
  }
  auto gone = handover::erase_closed_test(device, *data, one.journal);
  if (gone) gone = handover::erase_practice(device, *data);
  if (!gone) return say_no(gone.error());
  tell("Erased from this device: test {}\n", one.id);
  return 0;
}

} // namespace qb::patient
