// The sheet on which plain-water runs are written down by hand, beside the pegged plot.
#include "api/plan_page_parts.h"

namespace wheyfield::api {
namespace {

using quantity::in_litres;
using words::Decimal;

// What the plan counts until the farm has measured.
std::string counted_now(const PageWords& w, const season::Farm& farm) {
  if (!farm.method.mix_per_area)
    return w.say(
        "rehearsal.assumed",
        {{"litres", Decimal{w.worked.session.data.constant("usual-mix-per-acre").value, 0}}});
  const double litres = in_litres(*farm.method.mix_per_area * quantity::acres(1));
  return w.say("rehearsal.measured", {{"litres", Decimal{litres, 1}}});
}

std::vector<std::string> blank_row(const PageWords& w, const season::Farm& farm,
                                   std::size_t columns) {
  std::vector<std::string> row(columns, "_____");
  row[0] = farm.code;
  row[1] = w.words.text("method." + farm.method.id);
  row.back() = counted_now(w, farm);
  return row;
}

}  // namespace

// A row for each farm.
sheet::Page rehearsal_page(const PageWords& w) {
  const auto& data = w.worked.session.data;
  const auto runs = static_cast<std::size_t>(data.constant("runs-advised").value);
  sheet::Page page("rehearsal", w.say("page.rehearsal"));
  page.text(w.say("rehearsal.how",
                  {{"runs", runs},
                   {"acre", Decimal{quantity::in_square_metres(quantity::acres(1)), 0}},
                   {"limit", Decimal{100.0 * data.constant("runs-redo-above").value, 0}}}));
  std::vector<sheet::Column> columns{w.left("col.farm"), w.left("col.method"),
                                     w.left("col.plot-m2")};
  for (std::size_t run = 1; run <= runs; ++run)
    columns.push_back({w.say("col.run-litres", {{"run", run}}), false});
  for (const char* key : {"col.mean-litres", "col.litres-an-acre", "col.counted-now"})
    columns.push_back(w.left(key));
  Rows rows;
  for (const season::Farm& farm : w.worked.season.farms)
    rows.push_back(blank_row(w, farm, columns.size()));
  page.table(std::move(columns), std::move(rows));
  page.text(w.say("rehearsal.then"));
  page.caution(w.words.text("caution.sprayer-weedkiller"));
  return page;
}

}  // namespace wheyfield::api
