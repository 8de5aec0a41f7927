// The last entry's tubes, then each word on one of them.
#include "core/receiving/standing_box.hpp"

#include <algorithm>

namespace qb::inline receiving {

namespace {

// Each word on a tube of that box that stands: the last on each thing of it.
std::vector<const ruling*> words_on(std::int64_t box, const std::vector<ruling>& rulings) {
  std::vector<const ruling*> out;
  for (const ruling& r : rulings) {
    const bool of_tube = r.what == ruled::lid || r.what == ruled::absence ||
                         r.what == ruled::extra || r.what == ruled::label;
    if (!of_tube || r.of != box) continue;
    const auto same = [&](const ruling* o) { return o->what == r.what && o->tube == r.tube; };
    out.erase(std::remove_if(out.begin(), out.end(), same), out.end());
    if (r.says == row_word::taken_back) out.push_back(&r);
  }
  return out;
}

void take_back(const ruling& r, std::vector<received_tube>& tubes) {
  if (r.what == ruled::extra) {
    // Of several of one number it is the last; the others stay.
    const auto last = std::find_if(tubes.rbegin(), tubes.rend(),
                                   [&](const received_tube& t) { return t.sample == r.tube; });
    if (last != tubes.rend()) tubes.erase(std::next(last).base());
    return;
  }
  for (received_tube& t : tubes) {
    if (t.sample != r.tube) continue;
    if (r.what == ruled::lid) t.lid = lid_state::good;
    if (r.what == ruled::absence) t.present = true;
    if (r.what == ruled::label) t.label.reset();
  }
}

} // namespace

std::vector<received_tube> standing_tubes(const std::vector<arrival>& boxes,
                                          const std::vector<received_tube>& tubes,
                                          const std::vector<ruling>& rulings) {
  for (auto box = boxes.rbegin(); box != boxes.rend(); ++box) {
    std::vector<received_tube> out;
    for (const received_tube& t : tubes)
      if (t.box == box->mark.entry) out.push_back(t);
    if (out.empty()) continue;
    for (const ruling* r : words_on(box->mark.entry, rulings))
      take_back(*r, out);
    return out;
  }
  return {};
}

} // namespace qb::inline receiving
