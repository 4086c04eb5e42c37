// The dose line of each field, and how its seed is soaked.
#include "api/plan_page_parts.h"

namespace wheyfield::api {

using words::Decimal;

sheet::Page doses_page(const PageWords& w) {
  sheet::Page page("doses", w.say("page.doses"));
  page.text(w.say("doses.how", {{"parts", Decimal{w.worked.season.strength_parts, 0}}}));
  std::vector<std::string> lines;
  for (const season::DoseLine& line : w.worked.doses) lines.push_back(dose_text(w.worked, line));
  page.list(std::move(lines));
  if (!w.worked.soaks.empty()) {
    page.heading(w.say("soak.title"));
    std::vector<std::string> soaks;
    for (const season::SoakLine& line : w.worked.soaks) soaks.push_back(soak_text(w.worked, line));
    page.list(std::move(soaks));
    page.caution(w.words.text("caution.dressed-seed-never"));
  }
  for (const char* id : {"fresh-same-day", "wear"})
    page.caution(w.words.text("caution." + std::string(id)));
  return page;
}

}  // namespace wheyfield::api
