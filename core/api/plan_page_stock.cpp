// What comes into the cans and what leaves them, day by day.
#include "api/plan_page_parts.h"

namespace wheyfield::api {

sheet::Page stock_page(const PageWords& w) {
  sheet::Page page("stock", w.say("page.stock"));
  Rows rows;
  for (const season::StockChange& c : w.worked.stock)
    rows.push_back({w.words.date(c.date), w.words.text("stock." + c.what, {{"batch", c.lot}}),
                    w.litres(c.change_ml), w.litres(c.balance_ml)});
  page.table({w.left("col.date"), w.left("col.what"), w.right("col.change"), w.right("col.left")},
             rows);
  return page;
}

}  // namespace wheyfield::api
