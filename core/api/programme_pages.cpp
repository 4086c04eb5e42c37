// The pages of a programme: what to decide first, then group by group.
#include <algorithm>
#include <cmath>
#include <map>

#include "api/programme_answer.h"

namespace wheyfield::api {
namespace {

using calendar::Weekday;
using programme::Worth;
using words::Decimal;
using Table = std::vector<std::vector<std::string>>;

constexpr std::size_t most_named = 8;  // in one sentence

class ProgrammePages {
 public:
  explicit ProgrammePages(const WorkedProgramme& worked) : w_(worked), words_(worked.words()) {}

  std::vector<sheet::Page> all() const {
    return {summary(), weekdays(), costs(), visits(), needs(), molasses()};
  }

 private:
  std::string say(const char* key, const words::Values& values = {}) const {
    return words_.text(key, values);
  }
  std::string money(quantity::Money m) const {
    return words_.text("money", {{"amount", Decimal{static_cast<double>(m.whole()), 0}},
                                 {"currency", w_.groups.front().currency}});
  }
  std::string amount(std::int64_t thousandths) const {
    return words_.number(
        {static_cast<double>(quantity::Money::from_thousandths(thousandths).whole()), 0});
  }
  std::string litres(std::int64_t ml, int places = 1) const {
    return words_.number({static_cast<double>(ml) / 1000.0, places, false});
  }
  // A shortage of a few millilitres must not read as none.
  std::string short_text(const Worth& worth) const {
    const std::int64_t ml = worth.short_ml + worth.guess_ml;
    return ml == 0 ? "0" : litres(ml, ml < 100 ? 3 : 2);
  }
  std::string day(Weekday weekday, bool whole = true) const {
    return words_.text((whole ? "weekday." : "weekday.short.") +
                       std::string(calendar::weekday_key(weekday)));
  }
  sheet::Column left(const char* key) const { return {say(key), false}; }
  sheet::Column right(const char* key) const { return {say(key), true}; }

  std::string listed(const std::vector<std::string>& names) const {
    std::string list;
    for (std::size_t i = 0; i < names.size() && i < most_named; ++i)
      list += (list.empty() ? "" : ", ") + names[i];
    if (names.size() <= most_named) return list;
    return say("programme.and-more", {{"list", list}, {"n", names.size() - most_named}});
  }

  bool any_short() const {
    const auto short_ml = [](const Worth& worth) { return worth.short_ml + worth.guess_ml; };
    return short_ml(w_.plan.now) + short_ml(w_.plan.proposed) + short_ml(w_.plan.own_best) > 0;
  }

  template <class Holds>
  std::vector<std::string> groups_where(Holds holds) const {
    std::vector<std::string> names;
    for (std::size_t g = 0; g < w_.groups.size(); ++g)
      if (holds(g)) names.push_back(w_.groups[g].group);
    return names;
  }

  sheet::Page summary() const {
    sheet::Page page("summary", say("programme.title", {{"programme", w_.programme.name}}));
    std::size_t farms = 0;
    double acres = 0.0;
    for (const programme::GroupPlans& group : w_.groups) {
      farms += group.farms;
      acres += group.acres;
    }
    page.text(say("programme.size", {{"n", w_.groups.size()},
                                     {"farms", farms},
                                     {"acres", Decimal{acres, 1}},
                                     {"trainers", w_.programme.trainers.size()},
                                     {"visits", w_.programme.visits_a_week()}}));
    if (!w_.not_planned.empty())
      page.caution(say("programme.not-planned",
                       {{"n", w_.not_planned.size()}, {"groups", listed(w_.not_planned)}}));
    page.heading(say("programme.days"));
    page.text(moves());
    movers(page);
    totals(page);
    lose_by_moving(page);
    days_without_trainer(page);
    short_groups(page);
    page.text(proof());
    page.heading(say("programme.molasses"));
    lorry_lines(page);
    page.text(say("programme.each-season"));
    return page;
  }

  std::string moves() const {
    const auto moved = static_cast<int>(w_.plan.proposed.moved);
    if (moved == 0) return say("programme.no-moves");
    const std::int64_t fewer = w_.plan.now.short_ml + w_.plan.now.guess_ml -
                               w_.plan.proposed.short_ml - w_.plan.proposed.guess_ml;
    const std::int64_t saved = w_.plan.now.thousandths - w_.plan.proposed.thousandths;
    const words::Values values{{"n", moved},
                               {"all", w_.groups.size()},
                               {"saved", money(quantity::Money::from_thousandths(std::abs(saved)))},
                               {"litres", litres(std::abs(fewer), 2)}};
    if (fewer > 0)
      return say(saved >= 0 ? "programme.moves-both" : "programme.moves-litres", values);
    return say(saved > 0 ? "programme.moves-money" : "programme.moves-needed", values);
  }

  void movers(sheet::Page& page) const {
    std::vector<std::string> names;
    for (std::size_t g = 0; g < w_.groups.size(); ++g)
      if (w_.groups[g].now != w_.plan.groups[g].day)
        names.push_back(say("programme.mover",
                            {{"group", w_.groups[g].group}, {"day", day(w_.plan.groups[g].day)}}));
    if (!names.empty()) page.text(say("programme.movers", {{"groups", listed(names)}}));
  }

  void totals(sheet::Page& page) const {
    Table rows;
    const auto row = [&](const char* key, const Worth& worth) {
      rows.push_back({say(key), amount(worth.thousandths), short_text(worth)});
    };
    row("programme.row-now", w_.plan.now);
    row("programme.row-proposed", w_.plan.proposed);
    row("programme.row-own-best", w_.plan.own_best);
    std::vector<sheet::Column> columns{
        left("programme.col.meeting"),
        {say("programme.col.cost-of-all", {{"currency", w_.groups.front().currency}}), true}};
    if (any_short())
      columns.push_back(right("programme.col.short"));
    else
      for (auto& one : rows) one.pop_back();
    page.table(std::move(columns), std::move(rows));
  }

  // Visits run out on the good days: somebody pays for it, and should be told.
  void lose_by_moving(sheet::Page& page) const {
    const auto names =
        groups_where([&](std::size_t g) { return w_.now(g).worth < w_.proposed(g).worth; });
    if (!names.empty())
      page.text(say("programme.worse-off", {{"n", names.size()}, {"groups", listed(names)}}));
  }

  void days_without_trainer(sheet::Page& page) const {
    const auto visits = w_.programme.visits();
    const auto names = groups_where(
        [&](std::size_t g) { return visits[programme::day_index(w_.groups[g].now)] == 0; });
    if (!names.empty())
      page.text(say("programme.no-trainer-now", {{"n", names.size()}, {"groups", listed(names)}}));
  }

  void short_groups(sheet::Page& page) const {
    const auto names = groups_where([&](std::size_t g) {
      return w_.proposed(g).worth.short_ml + w_.proposed(g).worth.guess_ml > 0;
    });
    if (!names.empty())
      page.text(say("programme.short", {{"n", names.size()},
                                        {"litres", short_text(w_.plan.proposed)},
                                        {"groups", listed(names)}}));
  }

  std::string handed_over(const programme::Proof::Solver& solver) const {
    if (solver.handed_over == 0) return say("programme.proof-solver-none", {});
    return say("programme.proof-solver",
               {{"n", solver.handed_over}, {"better", solver.better}, {"near", solver.near}});
  }

  std::string proof() const {
    const programme::Proof& proof = w_.plan.proof;
    const words::Values values{{"plans", proof.plans},
                               {"best", proof.best},
                               {"near", proof.within_tenth},
                               {"n", proof.plans - proof.least_short},
                               {"percent", Decimal{std::ceil(proof.worst_gap * 1000.0) / 10.0, 1}}};
    std::string text = proof.best == proof.plans ? say("programme.proof-all", values)
                                                 : say("programme.proof", values) + " ";
    if (proof.plans != proof.least_short) text += say("programme.proof-none", values);
    if (proof.solver) text += (text.back() == ' ' ? "" : " ") + handed_over(*proof.solver);
    return text;
  }

  std::int64_t molasses_ml() const {
    std::int64_t sum = 0;
    for (const WeekNeed& week : molasses_weeks(w_)) sum += week.ml;
    return sum;
  }

  void lorry_lines(sheet::Page& page) const {
    const auto weeks = molasses_weeks(w_);
    if (weeks.empty()) return void(page.text(say("programme.no-molasses")));
    page.text(say("programme.molasses-need", {{"litres", litres(molasses_ml())},
                                              {"first", weeks.front().monday},
                                              {"last", weeks.back().monday}}));
    if (!w_.plan.deliveries) return;
    const programme::Deliveries& d = *w_.plan.deliveries;
    page.text(
        say("programme.lorry", {{"cans", w_.plan.cans.size()},
                                {"size", Decimal{quantity::in_litres(w_.programme.lorry->can), 2}},
                                {"n", d.trips.size()},
                                {"cost", money(d.trips_cost)}}));
    const bool fewest = w_.programme.lorry->terms.keeping_week == quantity::Money();
    if (fewest && d.trips.size() > 1) page.text(say("programme.no-fewer-trips"));
    std::vector<std::string> trips;
    for (const programme::Trip& trip : d.trips)
      trips.push_back(say("programme.trip", {{"day", trip.on},
                                             {"n", trip.cans.size()},
                                             {"groups", cans_by_group(w_, trip.cans).size()}}));
    page.list(std::move(trips));
    if (!d.not_brought.empty())
      page.caution(say("programme.not-brought", {{"n", d.not_brought.size()}}));
    page.text(say("programme.market-price"));
  }

  sheet::Page weekdays() const {
    sheet::Page page("weekdays", say("programme.page.weekdays"));
    Table rows;
    const bool with_short = any_short();
    for (std::size_t g = 0; g < w_.groups.size(); ++g) {
      const bool stays = w_.groups[g].now == w_.plan.groups[g].day;
      const char* key = w_.plan.groups[g].fixed ? "programme.day-fixed"
                        : stays                 ? "programme.day-stays"
                                                : "programme.day-new";
      std::vector<std::string> row{w_.groups[g].group, day(w_.groups[g].now),
                                   say(key, {{"day", day(w_.plan.groups[g].day)}}),
                                   amount(w_.now(g).worth.thousandths),
                                   amount(w_.proposed(g).worth.thousandths)};
      if (with_short) {
        row.push_back(short_text(w_.now(g).worth));
        row.push_back(short_text(w_.proposed(g).worth));
      }
      rows.push_back(std::move(row));
    }
    std::vector<sheet::Column> columns{
        left("programme.col.group"), left("programme.col.now"), left("programme.col.proposed"),
        right("programme.col.cost-now"), right("programme.col.cost-then")};
    if (with_short) {
      columns.push_back(right("programme.col.short-now"));
      columns.push_back(right("programme.col.short-then"));
    }
    page.table(std::move(columns), std::move(rows));
    page.text(say("programme.cost-means", {{"currency", w_.groups.front().currency}}));
    return page;
  }

  sheet::Page costs() const {
    sheet::Page page("costs", say("programme.page.costs"));
    std::vector<bool> shown(programme::days_a_week, false);
    for (const programme::GroupPlans& group : w_.groups)
      for (const programme::DayPlan& plan : group.days)
        shown[programme::day_index(plan.weekday)] = true;
    std::vector<sheet::Column> columns{left("programme.col.group")};
    for (std::size_t d = 0; d < programme::days_a_week; ++d)
      if (shown[d]) columns.push_back({day(programme::weekday_at(d), false), true});
    Table rows;
    for (std::size_t g = 0; g < w_.groups.size(); ++g) {
      std::vector<std::string> row{w_.groups[g].group};
      for (std::size_t d = 0; d < programme::days_a_week; ++d)
        if (shown[d]) row.push_back(cost_on(g, programme::weekday_at(d)));
      rows.push_back(std::move(row));
    }
    page.table(std::move(columns), std::move(rows));
    page.text(say("programme.costs-marks", {{"currency", w_.groups.front().currency}}));
    return page;
  }

  std::string cost_on(std::size_t g, Weekday weekday) const {
    const programme::DayPlan* plan = w_.groups[g].on(weekday);
    if (plan == nullptr) return "";
    std::string text = amount(plan->worth.thousandths);
    if (plan->worth.short_ml + plan->worth.guess_ml > 0)
      text = say("programme.cost-short", {{"cost", text}, {"litres", short_text(plan->worth)}});
    return weekday == w_.plan.groups[g].day ? say("programme.cost-chosen", {{"cost", text}}) : text;
  }

  sheet::Page visits() const {
    sheet::Page page("visits", say("programme.page.visits"));
    for (std::size_t t = 0; t < w_.programme.trainers.size(); ++t) {
      const programme::Trainer& trainer = w_.programme.trainers[t];
      page.heading(trainer.name);
      std::vector<std::string> lines;
      for (const Weekday weekday : trainer.days) {
        std::string names;
        std::size_t held = 0;
        for (std::size_t g = 0; g < w_.groups.size(); ++g) {
          const programme::PlacedGroup& placed = w_.plan.groups[g];
          if (placed.trainer != t || placed.day != weekday) continue;
          names += (names.empty() ? "" : ", ") + w_.groups[g].group;
          ++held;
        }
        const std::size_t free = trainer.visits_a_day - held;
        const words::Values values{{"day", day(weekday)}, {"groups", names}, {"n", free}};
        lines.push_back(say(held == 0   ? "programme.visits-none"
                            : free == 0 ? "programme.visits-full"
                                        : "programme.visits-some",
                            values));
      }
      page.list(std::move(lines));
    }
    page.text(say("programme.visits-order"));
    return page;
  }

  sheet::Page needs() const {
    sheet::Page page("needs", say("programme.page.needs"));
    const auto all = summed_needs(w_);
    std::vector<sheet::Column> columns{
        left("programme.col.group"), left("programme.col.day"), left("programme.col.first-start"),
        right("programme.col.batches"), right("programme.col.serum")};
    for (const programme::GroupNeed& need : all)
      columns.push_back({say("programme.col.need",
                             {{"item", words_.text("material." + need.item)}, {"unit", need.unit}}),
                         true});
    Table rows;
    std::int64_t made = 0, batches = 0;
    for (std::size_t g = 0; g < w_.groups.size(); ++g) {
      const programme::DayPlan& plan = w_.proposed(g);
      std::vector<std::string> row{w_.groups[g].group, day(plan.weekday, false),
                                   plan.first_start ? words_.date(*plan.first_start) : "",
                                   std::to_string(plan.batches), litres(plan.made_ml)};
      for (const programme::GroupNeed& need : all) row.push_back(need_text(plan.needs, need.item));
      rows.push_back(std::move(row));
      made += plan.made_ml;
      batches += plan.batches;
    }
    std::vector<std::string> sum{say("programme.sum"), "", "", std::to_string(batches),
                                 litres(made)};
    for (const programme::GroupNeed& need : all) sum.push_back(need_text(all, need.item));
    rows.push_back(std::move(sum));
    page.table(std::move(columns), std::move(rows));
    page.text(say("programme.needs-mean"));
    return page;
  }

  std::string need_text(const std::vector<programme::GroupNeed>& needs,
                        const std::string& item) const {
    for (const programme::GroupNeed& need : needs)
      if (need.item == item) return words_.number({need.amount, need.unit == "kg" ? 2 : 1, false});
    return "";
  }

  sheet::Page molasses() const {
    sheet::Page page("molasses", say("programme.page.molasses"));
    Table rows;
    for (const WeekNeed& week : molasses_weeks(w_))
      rows.push_back({words_.date(week.monday), litres(week.ml)});
    if (rows.empty()) page.text(say("programme.no-molasses"));
    page.table({left("programme.col.week"), right("programme.col.litres")}, std::move(rows));
    if (!w_.plan.deliveries) return page;
    const programme::Deliveries& d = *w_.plan.deliveries;
    for (const programme::Trip& trip : d.trips) {
      page.heading(say("programme.trip-heading", {{"day", trip.on}, {"n", trip.cans.size()}}));
      page.table(
          {left("programme.col.group"), right("programme.col.cans"), left("programme.col.needed")},
          can_rows(trip.cans));
    }
    if (d.not_brought.empty()) return page;
    page.heading(say("programme.not-brought-heading", {{"n", d.not_brought.size()}}));
    page.table(
        {left("programme.col.group"), right("programme.col.cans"), left("programme.col.needed")},
        can_rows(d.not_brought));
    return page;
  }

  Table can_rows(const std::vector<std::size_t>& cans) const {
    Table rows;
    for (const GroupCans& one : cans_by_group(w_, cans))
      rows.push_back(
          {w_.groups[one.group].group, std::to_string(one.cans), words_.date(one.needed)});
    return rows;
  }

  const WorkedProgramme& w_;
  const words::Catalogue& words_;
};

}  // namespace

std::vector<WeekNeed> molasses_weeks(const WorkedProgramme& worked) {
  std::map<int, std::int64_t> by_week;
  for (std::size_t g = 0; g < worked.groups.size(); ++g)
    for (const programme::DatedNeed& need : worked.proposed(g).molasses)
      by_week[need.on.days() - (static_cast<int>(need.on.weekday()) - 1)] += need.ml;
  std::vector<WeekNeed> weeks;
  for (const auto& [monday, ml] : by_week) weeks.push_back({calendar::Date::from_days(monday), ml});
  return weeks;
}

std::vector<GroupCans> cans_by_group(const WorkedProgramme& worked,
                                     const std::vector<std::size_t>& cans) {
  std::map<std::size_t, GroupCans> by_group;
  for (const std::size_t i : cans) {
    const programme::Can& can = worked.plan.cans[i];
    GroupCans& one =
        by_group.try_emplace(can.group, GroupCans{can.group, 0, can.needed}).first->second;
    ++one.cans;
    one.needed = std::min(one.needed, can.needed);
  }
  std::vector<GroupCans> list;
  for (const auto& [group, one] : by_group) list.push_back(one);
  return list;
}

std::vector<programme::GroupNeed> summed_needs(const WorkedProgramme& worked) {
  std::vector<programme::GroupNeed> sum;
  for (std::size_t g = 0; g < worked.groups.size(); ++g)
    for (const programme::GroupNeed& need : worked.proposed(g).needs) {
      const auto same = std::find_if(sum.begin(), sum.end(), [&](const auto& one) {
        return one.item == need.item && one.unit == need.unit;
      });
      if (same == sum.end()) {
        sum.push_back(need);
        continue;
      }
      same->amount += need.amount;
      same->in_hand += need.in_hand;
    }
  return sum;
}

std::vector<sheet::Page> programme_pages(const WorkedProgramme& worked) {
  return ProgrammePages(worked).all();
}

}  // namespace wheyfield::api
