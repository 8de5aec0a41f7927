// The result by code for the screen: made when its page is open, and again when the record grew.
#include "app/handover/code_signer.hpp"
#include "app/page/qr_symbol.hpp"
#include "app/patient/shell/shell.hpp"

namespace qb {

void shell::make_codes() {
  if (ui_.open != "code" || !running_) return;
  if (codes_seq_ == current().seq) return;
  codes_.clear();
  codes_seq_ = current().seq;
  const export_keys keys = device_keys(options_.data);
  const auto texts = codes_of(running_->session().events(), code_signer(keys));
  if (!texts) return; // before tube 1: the page says that there is none yet
  for (const std::string& text : *texts) {
    // A screen is clean: the weaker correction makes larger modules.
    auto one = page::qr_symbol(text, page::correction::m);
    QB_BELIEVE(one.has_value());
    codes_.push_back(std::move(*one));
  }
}

} // namespace qb
