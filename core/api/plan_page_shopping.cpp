// What to buy, in local packs.
#include "api/plan_page_parts.h"

namespace wheyfield::api {

using words::Decimal;

sheet::Page shopping_page(const PageWords& w) {
  sheet::Page page("shopping", w.say("page.shopping"));
  Rows rows;
  for (const season::ShoppingLine& line : w.worked.shopping.lines) {
    std::string packs;
    for (const season::PackChoice& choice : line.packs)
      packs += (packs.empty() ? "" : " + ") +
               w.say("shopping.pack", {{"n", choice.count},
                                       {"size", Decimal{choice.pack.pack, 2}},
                                       {"unit", w.unit(line.unit, choice.pack.pack)}});
    rows.push_back({w.words.text("item." + line.item),
                    w.number(line.need, recipe::amount_places) + " " + w.unit(line.unit, line.need),
                    line.in_hand > 0.0 ? w.number(line.in_hand, recipe::amount_places) : "",
                    packs.empty() ? w.say("shopping.nothing") : packs,
                    w.words.number({line.cost.amount(), 0}), w.words.date(line.buy_on)});
  }
  page.table({w.left("col.item"), w.right("col.need"), w.right("col.in-hand"), w.left("col.buy"),
              w.right("col.cost"), w.left("col.market")},
             rows);
  page.text(w.say("shopping.total", {{"money", money_text(w.worked, w.worked.shopping.total)}}));
  page.text(w.say("shopping.milk", {{"money", money_text(w.worked, w.worked.cost.milk)}}));
  return page;
}

}  // namespace wheyfield::api
