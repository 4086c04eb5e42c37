// What the season costs, by the litre and by the acre.
#include "api/plan_page_parts.h"

namespace wheyfield::api {

using words::Decimal;

sheet::Page cost_page(const PageWords& w) {
  sheet::Page page("cost", w.say("page.cost"));
  const economics::SeasonCost& c = w.worked.cost;
  const auto row = [&](const char* key, quantity::Money money, const words::Values& values = {}) {
    return std::vector<std::string>{w.say(key, values),
                                    w.words.number({static_cast<double>(money.whole()), 0})};
  };
  page.table(
      {w.left("col.item"), {w.worked.season.currency, true}},
      {row("cost.bought", c.bought), row("cost.milk", c.milk),
       row("cost.labour", c.labour, {{"hours", Decimal{c.labour_hours, 1}}}),
       row("cost.water", c.water, {{"cans", c.cans}}), row("cost.total", c.total()),
       row("cost.per-litre-handed-out", c.per_litre_handed_out(),
           {{"litres", Decimal{c.litres_handed_out, 1}}}),
       row("cost.per-litre-made", c.per_litre_made(), {{"litres", Decimal{c.litres_made, 1}}}),
       row("cost.per-acre", c.per_acre(w.worked.season.area()))});
  if (!w.worked.plan.others.empty())
    page.text(w.say("cost.beside", {{"bought", money_text(w.worked, w.worked.bought_beside)},
                                    {"milk", money_text(w.worked, w.worked.beside.milk)},
                                    {"labour", money_text(w.worked, w.worked.beside.labour)},
                                    {"hours", Decimal{w.worked.beside.labour_hours, 1}}}));
  if (c.litres_kept > 0.0) page.text(w.say("cost.kept", {{"litres", Decimal{c.litres_kept, 2}}}));
  page.text(w.say("cost.not-counted"));
  return page;
}

}  // namespace wheyfield::api
