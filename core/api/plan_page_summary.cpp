// The first page: who is short, what starts when, what it costs, what is not known.
#include <algorithm>
#include <cmath>

#include "api/plan_page_parts.h"

namespace wheyfield::api {
namespace {

using words::Decimal;

void sown_without(const PageWords& w, sheet::Page& page) {
  int skipped = 0;
  std::set<std::string> untimed;
  for (const season::PlannedUse& use : w.worked.plan.uses) {
    if (use.due.hand_out == season::HandOut::none)
      untimed.insert(w.crop_name(use.due.farm, use.due.field));
    else if (!use.planned)
      ++skipped;
  }
  if (skipped > 0) page.text(w.say("summary.nursery", {{"n", skipped}}));
  if (!untimed.empty()) page.text(w.say("summary.no-soak-time", {{"crops", comma_list(untimed)}}));
}

// The batches of which more is handed out than their low yield brings.
struct LowYields {
  int batches = 0;
  std::string names;
  std::int64_t missing_ml = 0;
};

LowYields low_yields(const PageWords& w) {
  LowYields low;
  for (std::size_t i = 0; i < w.worked.yields.size(); ++i) {
    if (w.worked.yields[i].missing_ml() == 0) continue;
    low.names += (low.batches == 0 ? "" : ", ") + w.made()[i].name;
    low.missing_ml += w.worked.yields[i].missing_ml();
    ++low.batches;
  }
  return low;
}

void who_is_short(const PageWords& w, sheet::Page& page) {
  const LowYields low = low_yields(w);
  if (w.worked.plan.shortages.empty())
    page.text(w.say(low.batches == 0 ? "summary.met" : "summary.met-likely"));
  for (const season::Shortage& s : w.worked.plan.shortages) page.text(shortage_text(w.worked, s));
  for (std::size_t i = 0; i < w.worked.plan.others.size(); ++i)
    for (std::size_t d = 0; d < w.worked.plan.others[i].due.size(); ++d)
      if (w.worked.plan.others[i].batches.short_ml[d] > 0)
        page.text(recipe_name(w.words, *w.worked.season.preparations[i].recipe) + ": " +
                  wanted_text(w.worked, i, d));
  if (w.worked.plan.cure_start)
    page.text(w.say("summary.cure",
                    {{"day", *w.worked.plan.cure_start}, {"first", w.worked.season.first_start}}));
  else if (!w.worked.plan.shortages.empty() && !w.worked.plan.under_way)
    page.text(
        w.say("summary.no-cure",
              {{"n", static_cast<int>(w.worked.session.data.constant("cure-search").value)}}));
  if (low.batches > 0)
    page.text(
        w.say("summary.low-yields",
              {{"n", low.batches}, {"batches", low.names}, {"missing", w.litres(low.missing_ml)}}));
}

// A spare can only stand in for batches that are not handed out before it is ready.
void spares(const PageWords& w, sheet::Page& page) {
  for (std::size_t i = 0; i < w.made().size(); ++i) {
    if (!w.made()[i].spare) continue;
    std::string earlier;
    int n = 0;
    for (std::size_t j = 0; j < w.made().size(); ++j)
      if (!w.made()[j].spare && w.made()[j].ready < w.made()[i].ready) {
        earlier += (earlier.empty() ? "" : ", ") + w.made()[j].name;
        ++n;
      }
    words::Values values{{"batch", w.made()[i].name}, {"ready", w.made()[i].ready}, {"n", n}};
    values.insert_or_assign("earlier", earlier);
    page.text(w.say(n > 0 ? "summary.spare-late" : "summary.spare", values));
    if (const auto instead = season::spare_instead_of(w.worked.recipe, w.worked.plan, i))
      page.text(
          w.say("summary.spare-instead", {{"batch", w.made()[i].name},
                                          {"day", w.made()[*instead].start()},
                                          {"instead", w.made()[*instead].name},
                                          {"litres", w.litres(w.made()[*instead].stored_ml)}}));
  }
}

std::vector<std::string> batch_lines(const PageWords& w) {
  std::vector<std::string> lines;
  for (const season::Batch& b : w.made()) lines.push_back(batch_line(w, b));
  return lines;
}

void made_beside(const PageWords& w, sheet::Page& page) {
  for (std::size_t i = 0; i < w.worked.plan.others.size(); ++i) {
    page.heading(recipe_name(w.words, *w.worked.season.preparations[i].recipe));
    page.list(preparation_lines(w, i));
    std::vector<std::string> lines;
    for (const season::Batch& b : w.worked.plan.others[i].batches.batches)
      lines.push_back(batch_line(w, b));
    page.list(std::move(lines));
  }
}

void spares_missing(const PageWords& w, sheet::Page& page) {
  if (const int missing = w.worked.plan.batches.spares_missing; missing > 0) {
    const auto found = std::count_if(w.made().begin(), w.made().end(),
                                     [](const season::Batch& b) { return b.spare; });
    page.text(w.say("summary.spare-missing",
                    {{"n", missing}, {"all", missing + static_cast<int>(found)}}));
  }
}

// What the group's own batches brought, where that changes what the plan counts on.
void own_yields(const PageWords& w, sheet::Page& page) {
  for (const OwnPace& pace : w.worked.paces)
    page.text(w.say("summary.own-pace", {{"place", pace.place}, {"n", pace.batches}}));
  for (const auto& own : w.worked.own)
    for (const recipe::LearnedYield& one : own->yields) {
      if (one.batches == 0) continue;
      const recipe::Flow& taught = recipe::flow_of(*own->taught, one.yield);
      const auto litres = [&](double ratio) { return Decimal{ratio * one.yield.per_of, 2}; };
      page.text(
          w.say("summary.own-yield", {{"of", w.words.text("material." + one.yield.of)},
                                      {"material", w.words.text("material." + taught.material)},
                                      {"value", litres(one.value)},
                                      {"low", litres(one.low)},
                                      {"high", litres(one.high)},
                                      {"taught", litres(taught.ratio.value)},
                                      {"n", one.batches}}));
    }
}

// How good the plan is, as far as it is proven, and how it fares when batches fail.
void how_good(const PageWords& w, sheet::Page& page) {
  const season::BatchPlan& plan = w.worked.plan.batches;
  if (w.made().empty() || !plan.certificate) return;
  const season::Certificate& proven = *plan.certificate;
  page.heading(w.say("summary.how-good"));
  if (proven.gap == 0.0)
    page.text(w.say("summary.proven"));
  else if (proven.least_short)
    page.text(
        w.say("summary.gap", {{"percent", Decimal{std::ceil(proven.gap * 1000.0) / 10.0, 1}}}));
  else
    page.text(w.say("summary.unproven"));
  if (plan.baseline_cost && proven.cost < *plan.baseline_cost)
    page.text(w.say("summary.baseline", {{"cost", money_text(w.worked, proven.cost)},
                                         {"baseline", money_text(w.worked, *plan.baseline_cost)}}));
  if (!w.worked.plan.risk) return;
  const season::SeasonRisk& risk = *w.worked.plan.risk;
  const auto of_hundred = [](double share) { return Decimal{share * 100.0, 0}; };
  page.text(w.say("summary.risk", {{"all", of_hundred(risk.all_on_time)},
                                   {"litres", of_hundred(risk.litres_on_time)},
                                   {"worst", of_hundred(risk.worst_twentieth)}}));
  page.text(risk_basis_text(w.worked));
}

void what_it_costs(const PageWords& w, sheet::Page& page) {
  page.heading(w.say("summary.money"));
  page.text(
      w.say("summary.cost",
            {{"total", money_text(w.worked, w.worked.cost.total())},
             {"water", money_text(w.worked, w.worked.cost.water)},
             {"litre", money_text(w.worked, w.worked.cost.per_litre_handed_out())},
             {"made", money_text(w.worked, w.worked.cost.per_litre_made())},
             {"acre", money_text(w.worked, w.worked.cost.per_acre(w.worked.season.area()))}}));
}

}  // namespace

sheet::Page summary_page(const PageWords& w) {
  sheet::Page page("summary", w.say("page.summary", {{"season", w.worked.season.name}}));
  page.text(
      w.say("summary.group", {{"farms", w.worked.season.farms.size()},
                              {"fields", w.worked.season.fields()},
                              {"acres", Decimal{quantity::in_acres(w.worked.season.area()), 2}}}));
  who_is_short(w, page);
  page.heading(w.say("summary.start", {{"n", w.made().size()}}));
  page.list(batch_lines(w));
  spares_missing(w, page);
  spares(w, page);
  sown_without(w, page);
  made_beside(w, page);
  own_yields(w, page);
  how_good(w, page);
  what_it_costs(w, page);
  page.heading(w.say("summary.candid"));
  for (std::string& line : candid_lines(w.worked)) page.text(std::move(line));
  return page;
}

}  // namespace wheyfield::api
