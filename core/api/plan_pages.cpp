#include <algorithm>
#include <map>
#include <set>

#include "api/plan_answer.h"
#include "season/tasks.h"

namespace wheyfield::api {
namespace {

using quantity::in_litres;
using sheet::Column;
using sheet::Page;
using words::Decimal;
using words::Values;

using Rows = std::vector<std::vector<std::string>>;

class PageWriter {
 public:
  explicit PageWriter(const WorkedPlan& worked) : w_(worked), words_(worked.words()) {}

  std::vector<Page> all() {
    std::vector<Page> pages{summary(), uses(), batches(), tasks()};
    for (const season::Meeting& meeting : w_.meetings) pages.push_back(meeting_page(meeting));
    for (Page page : {shopping(), stock(), doses(), rehearsal(), cost(), cautions()})
      pages.push_back(std::move(page));
    return pages;
  }

 private:
  std::string t(const char* key, const Values& values = {}) const {
    return words_.text(key, values);
  }
  std::string litres(std::int64_t ml) const {
    return words_.number({static_cast<double>(ml) / 1000.0, 3, false});
  }
  std::string millilitres(std::int64_t ml) const { return number(static_cast<double>(ml), 0); }
  std::string number(double value, int places) const { return words_.number({value, places}); }
  std::string unit(const std::string& id, double n) const {
    return words_.text("unit." + id, {{"n", Decimal{n, 2}}});
  }
  std::string crop_name(std::size_t farm, std::size_t field) const {
    return words_.text("crop." + w_.farm(farm).fields[field].planting.crop->id);
  }
  static std::string listed(const std::set<std::string>& names) {
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
    return list;
  }
  Column left(const char* key) const { return {t(key), false}; }
  Column right(const char* key) const { return {t(key), true}; }
  const std::vector<season::Batch>& made() const { return w_.plan.batches.batches; }
  std::string span(const calendar::Window& window) const {
    return words_.span(window.early, window.late);
  }

  Page summary() const {
    Page page("summary", t("page.summary", {{"season", w_.season.name}}));
    page.text(t("summary.group", {{"farms", w_.season.farms.size()},
                                  {"fields", w_.season.fields()},
                                  {"acres", Decimal{quantity::in_acres(w_.season.area()), 2}}}));
    const LowYields low = low_yields();
    if (w_.plan.shortages.empty())
      page.text(t(low.batches == 0 ? "summary.met" : "summary.met-likely"));
    for (const season::Shortage& s : w_.plan.shortages) page.text(shortage_text(w_, s));
    if (w_.plan.cure_start)
      page.text(
          t("summary.cure", {{"day", *w_.plan.cure_start}, {"first", w_.season.first_start}}));
    else if (!w_.plan.shortages.empty())
      page.text(t("summary.no-cure",
                  {{"n", static_cast<int>(w_.session.data.constant("cure-search").value)}}));
    if (low.batches > 0)
      page.text(
          t("summary.low-yields",
            {{"n", low.batches}, {"batches", low.names}, {"missing", litres(low.missing_ml)}}));
    page.heading(t("summary.start", {{"n", made().size()}}));
    page.list(batch_lines());
    if (const int missing = w_.plan.batches.spares_missing; missing > 0) {
      const auto found = std::count_if(made().begin(), made().end(),
                                       [](const season::Batch& b) { return b.spare; });
      page.text(
          t("summary.spare-missing", {{"n", missing}, {"all", missing + static_cast<int>(found)}}));
    }
    spares(page);
    sown_without(page);
    page.heading(t("summary.money"));
    page.text(t("summary.cost", {{"total", money_text(w_, w_.cost.total())},
                                 {"water", money_text(w_, w_.cost.water)},
                                 {"litre", money_text(w_, w_.cost.per_litre_handed_out())},
                                 {"made", money_text(w_, w_.cost.per_litre_made())},
                                 {"acre", money_text(w_, w_.cost.per_acre(w_.season.area()))}}));
    page.heading(t("summary.candid"));
    for (std::string& line : candid_lines(w_)) page.text(std::move(line));
    return page;
  }

  void sown_without(Page& page) const {
    int skipped = 0;
    std::set<std::string> untimed;
    for (const season::PlannedUse& use : w_.plan.uses) {
      if (use.due.hand_out == season::HandOut::none)
        untimed.insert(crop_name(use.due.farm, use.due.field));
      else if (!use.planned)
        ++skipped;
    }
    if (skipped > 0) page.text(t("summary.nursery", {{"n", skipped}}));
    if (!untimed.empty()) page.text(t("summary.no-soak-time", {{"crops", listed(untimed)}}));
  }

  // The batches of which more is handed out than their low yield brings.
  struct LowYields {
    int batches = 0;
    std::string names;
    std::int64_t missing_ml = 0;
  };
  LowYields low_yields() const {
    LowYields low;
    for (std::size_t i = 0; i < w_.yields.size(); ++i) {
      if (w_.yields[i].missing_ml() == 0) continue;
      low.names += (low.batches == 0 ? "" : ", ") + season::batch_name(i);
      low.missing_ml += w_.yields[i].missing_ml();
      ++low.batches;
    }
    return low;
  }

  // A spare can only stand in for batches that are not handed out before it is ready.
  void spares(Page& page) const {
    for (std::size_t i = 0; i < made().size(); ++i) {
      if (!made()[i].spare) continue;
      std::string earlier;
      int n = 0;
      for (std::size_t j = 0; j < made().size(); ++j)
        if (!made()[j].spare && made()[j].ready < made()[i].ready) {
          earlier += (earlier.empty() ? "" : ", ") + season::batch_name(j);
          ++n;
        }
      Values values{{"batch", season::batch_name(i)}, {"ready", made()[i].ready}, {"n", n}};
      values.insert_or_assign("earlier", earlier);
      page.text(t(n > 0 ? "summary.spare-late" : "summary.spare", values));
      if (const auto instead = season::spare_instead_of(w_.recipe, w_.plan, i))
        page.text(t("summary.spare-instead", {{"batch", season::batch_name(i)},
                                              {"day", made()[*instead].start()},
                                              {"instead", season::batch_name(*instead)},
                                              {"litres", litres(made()[*instead].stored_ml)}}));
    }
  }

  std::vector<std::string> batch_lines() const {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < made().size(); ++i) {
      const season::Batch& b = made()[i];
      const season::Vessel& vessel = w_.season.vessels[b.vessel];
      lines.push_back(
          t(b.spare ? "batch.line-spare" : "batch.line", {{"batch", season::batch_name(i)},
                                                          {"day", b.start()},
                                                          {"ready", b.ready},
                                                          {"litres", litres(b.stored_ml)},
                                                          {"vessel", vessel.name},
                                                          {"farm", vessel.farm}}));
    }
    return lines;
  }

  Page uses() const {
    Page page("uses", t("page.uses"));
    page.text(t("uses.how", {{"parts", Decimal{w_.season.strength_parts, 0}}}));
    Rows rows, strong;
    for (const season::PlannedUse& use : w_.plan.uses) {
      if (!use.planned) continue;
      const bool by_area = use.due.hand_out == season::HandOut::volume;
      rows.push_back({use.due.collect_on ? words_.date(*use.due.collect_on) : "-",
                      w_.farm(use.due.farm).code, crop_name(use.due.farm, use.due.field),
                      words_.text("use." + use.due.use.event), span(use.due.use.window),
                      by_area ? number(in_litres(use.due.mix), 1) : "", serum_cell(use)});
    }
    page.table({left("col.fetch"), right("col.farm"), left("col.crop"), left("col.use"),
                left("col.window"), right("col.mix"), right("col.serum")},
               rows);
    nothing_to_fetch(page);
    const auto& uses = w_.plan.uses;
    if (std::any_of(uses.begin(), uses.end(),
                    [](const auto& use) { return use.planned && !use.due.measured; }))
      page.text(t("uses.assumed",
                  {{"rate", number(w_.session.data.constant("usual-mix-per-acre").value, 0)}}));
    roads(page);
    stronger(page);
    return page;
  }

  // One line for all that is sown without serum: no trip is made for it.
  void nothing_to_fetch(Page& page) const {
    std::map<std::string, std::string> farms;
    for (const season::PlannedUse& use : w_.plan.uses) {
      if (use.planned) continue;
      std::string& codes = farms[crop_name(use.due.farm, use.due.field)];
      codes += (codes.empty() ? "" : ", ") + w_.farm(use.due.farm).code;
    }
    std::set<std::string> crops;
    for (const auto& [crop, codes] : farms)
      crops.insert(t("uses.without-crop", {{"crop", crop}, {"farms", codes}}));
    if (!crops.empty()) page.text(t("uses.without", {{"crops", listed(crops)}}));
  }

  std::string serum_cell(const season::PlannedUse& use) const {
    std::string serum = millilitres(use.due.serum_ml);
    if (!use.due.measured) serum += t("uses.assumed-mark");
    if (use.due.hand_out == season::HandOut::by_seed)
      serum = t("uses.by-seed",
                {{"ml", Decimal{quantity::in_millilitres(use.due.per_kg), 2}}, {"kept", serum}});
    if (use.short_ml > 0)
      serum += t("uses.short", {{"ml", Decimal{static_cast<double>(use.short_ml), 0}}});
    return serum;
  }

  std::string warmth_used_for(std::size_t place) const {
    const auto& uses = w_.plan.uses;
    const auto& vessels = w_.season.vessels;
    std::set<std::string> list;
    if (std::any_of(uses.begin(), uses.end(), [&](const season::PlannedUse& use) {
          return use.due.road == crop::Road::degree_days && w_.farm(use.due.farm).place == place;
        }))
      list.insert(t("uses.warmth-windows"));
    if (std::any_of(vessels.begin(), vessels.end(),
                    [&](const season::Vessel& vessel) { return vessel.place == place; }))
      list.insert(t("uses.warmth-batches"));
    return list.empty() ? t("uses.warmth-nothing") : listed(list);
  }

  // How the windows were found, and how warm the places are taken to be.
  void roads(Page& page) const {
    std::map<crop::Road, std::set<std::string>> crops;
    for (const season::PlannedUse& use : w_.plan.uses)
      crops[use.due.road].insert(crop_name(use.due.farm, use.due.field));
    page.heading(t("uses.roads"));
    std::vector<std::string> lines;
    for (const auto& [road, names] : crops)
      lines.push_back(t("uses.road", {{"road", words_.text("forecast.road." +
                                                           std::string(crop::road_word(road)))},
                                      {"crops", listed(names)}}));
    for (std::size_t i = 0; i < w_.season.places.size(); ++i) {
      const season::Place& place = w_.season.places[i];
      lines.push_back(t("uses.temperature",
                        {{"place", place.name},
                         {"origin", words_.text("temperatures." + std::string(weather::origin_word(
                                                                      place.temperature.origin)))},
                         {"spread", Decimal{place.temperature.spread, 1}},
                         {"uses", warmth_used_for(i)}}));
    }
    page.list(std::move(lines));
    if (!w_.season.by_degree_days)
      page.text(t("uses.by-warmth", {{"setting", "windows = \"degree-days\""}}));
    page.text(t("uses.seen"));
  }

  // Fields that take far more than the usual plan: shown with cans and trips before it is chosen.
  void stronger(Page& page) const {
    std::vector<std::string> lines;
    for (const season::DoseLine& line : w_.doses) {
      if (line.serum_ml < 2 * line.usual_ml) continue;
      const season::Farm& farm = w_.farm(line.farm);
      lines.push_back(
          t("uses.strong-line",
            {{"farm", farm.code},
             {"crop", words_.text("crop." + farm.fields[line.field].planting.crop->id)},
             {"method", words_.text("method." + line.method)},
             {"serum", millilitres(line.serum_ml)},
             {"usual", millilitres(line.usual_ml)},
             {"times",
              Decimal{static_cast<double>(line.serum_ml) / static_cast<double>(line.usual_ml), 1}},
             {"mix", Decimal{in_litres(line.mix), 0}},
             {"cans", dosing::trips(line.mix, farm.can,
                                    w_.session.data.constant("negligible-load").value)}}));
    }
    if (lines.empty()) return;
    page.heading(t("uses.strong"));
    page.list(std::move(lines));
  }

  Page batches() const {
    Page page("batches", t("page.batches"));
    for (std::size_t i = 0; i < made().size(); ++i) {
      const season::Batch& b = made()[i];
      const season::Vessel& vessel = w_.season.vessels[b.vessel];
      page.heading(t(b.spare ? "batch.head-spare" : "batch.head",
                     {{"batch", season::batch_name(i)},
                      {"litres", litres(b.stored_ml)},
                      {"vessel", vessel.name},
                      {"farm", vessel.farm},
                      {"place", w_.season.places[vessel.place].name}}));
      page.text(words_.text("batch.inputs", season::batch_values(w_.season, w_.recipe, b, i)));
      page.text(t(vessel.milk == season::Milk::raw ? "batch.milk-raw" : "batch.milk-heated"));
      page.table({left("col.step"), left("col.from"), left("col.ready"), left("col.likely"),
                  left("col.until")},
                 step_rows(b));
      page.text(t("batch.kept", {{"day", b.use_by}}));
      page.text(yield_text(i));
    }
    return page;
  }

  // What the measured yields may bring, and who goes short when they are low.
  std::string yield_text(std::size_t i) const {
    const season::BatchYield& yield = w_.yields[i];
    std::string text =
        t("batch.yield", {{"low", litres(yield.low_ml)}, {"high", litres(yield.high_ml)}});
    if (yield.missing_ml() > 0)
      text += " " + t("batch.yield-low",
                      {{"missing", litres(yield.missing_ml())}, {"drawn", litres(yield.drawn_ml)}});
    return text;
  }

  Rows step_rows(const season::Batch& b) const {
    Rows rows;
    for (const season::BatchStep& step : b.steps) {
      const std::string name = words_.text("step." + w_.recipe.steps[step.step].id);
      const bool same_day = step.from == step.to;
      rows.push_back({step.cool ? t("batch.cool", {{"step", name}}) : name, words_.date(step.from),
                      same_day ? t("recipe.same-day") : span(step.ready),
                      same_day ? "" : words_.date(step.ready.likely), words_.date(step.to)});
    }
    return rows;
  }

  std::string task_line(const season::Task& task) const {
    return t("task.line", {{"who", who_text(w_, task.who)}, {"task", task_text(w_, task)}});
  }

  // The work with its cautions, each said once, where the act happens.
  void work_list(Page& page, const std::vector<const season::Task*>& tasks) const {
    std::vector<std::string> lines, warned;
    for (const season::Task* task : tasks) {
      lines.push_back(task_line(*task));
      for (const std::string& id : task->cautions)
        if (const std::string brief = "brief." + id; words_.has(brief))
          if (std::string text = words_.text(brief, caution_values(w_, *task));
              std::find(warned.begin(), warned.end(), text) == warned.end())
            warned.push_back(std::move(text));
    }
    page.list(std::move(lines));
    for (std::string& text : warned) page.caution(std::move(text));
  }

  Page tasks() const {
    Page page("tasks", t("page.tasks"));
    std::map<int, std::vector<const season::Task*>> days;
    for (const season::Task& task : w_.plan.tasks) days[task.date.days()].push_back(&task);
    for (const auto& [day, list] : days) {
      page.heading(words_.long_date(calendar::Date::from_days(day)));
      work_list(page, list);
    }
    return page;
  }

  std::string event_names(const std::vector<std::string>& events) const {
    std::string out;
    for (const std::string& event : events)
      out += (out.empty() ? "" : ", ") + words_.text("use." + event);
    return out;
  }

  Page meeting_page(const season::Meeting& m) const {
    Page page("meeting-" + m.date.iso(), t("page.meeting", {{"day", words_.long_date(m.date)}}));
    std::vector<const season::Task*> work;
    for (const std::size_t i : m.tasks) work.push_back(&w_.plan.tasks[i]);
    page.heading(t("meeting.work"));
    if (work.empty()) page.text(t("meeting.no-work"));
    work_list(page, work);
    meeting_bring(page, m);
    meeting_shares(page, m);
    for (const std::string& code : m.absent) page.text(t("meeting.absent", {{"farm", code}}));
    page.text(t("meeting.came"));
    return page;
  }

  void meeting_bring(Page& page, const season::Meeting& m) const {
    page.heading(t("meeting.bring"));
    std::vector<std::string> lines;
    for (const season::Bring& b : m.bring) {
      const bool milk = b.item == "milk";
      const bool today = b.on == m.date;
      lines.push_back(t(milk ? (today ? "meeting.milk" : "meeting.milk-later")
                             : (today ? "meeting.item" : "meeting.item-later"),
                        {{"amount", Decimal{b.amount, recipe::amount_places}},
                         {"unit", unit(b.unit, b.amount)},
                         {"item", words_.text("item." + b.item)},
                         {"batch", season::batch_name(b.batch)},
                         {"cost", money_text(w_, b.cost)},
                         {"day", b.on}}));
    }
    if (lines.empty()) page.text(t("meeting.nothing-to-bring"));
    page.list(std::move(lines));
    if (m.milk_money.thousandths() > 0)
      page.text(t("meeting.money", {{"money", money_text(w_, m.milk_money)}}));
  }

  std::string remark(const season::Share& share) const {
    std::string text;
    if (share.send_by)
      text = t("meeting.absent-send", {{"day", *share.send_by}});
    else if (share.absent)
      text = t("meeting.absent-mark");
    for (const season::SeedShare& seed : share.by_seed)
      text += (text.empty() ? "" : "; ") +
              t("meeting.by-seed", {{"crop", crop_name(share.farm, seed.field)},
                                    {"ml", Decimal{quantity::in_millilitres(seed.per_kg), 2}}});
    for (const season::PickFrom& pick : share.picking)
      text +=
          (text.empty() ? "" : "; ") +
          t("meeting.pick-from", {{"crop", crop_name(share.farm, pick.field)}, {"day", pick.day}});
    return text;
  }

  void meeting_shares(Page& page, const season::Meeting& m) const {
    page.heading(t("meeting.due"));
    if (m.shares.empty()) return void(page.text(t("meeting.none-due")));
    Rows rows;
    std::int64_t sum = 0, missing = 0, kept = 0;
    for (const season::Share& share : m.shares) {
      sum += share.serum_ml;
      missing += share.short_ml;
      for (const season::SeedShare& seed : share.by_seed) kept += seed.kept_ml;
      const bool seed_only = share.serum_ml == 0 && !share.by_seed.empty();
      rows.push_back({w_.farm(share.farm).code, event_names(share.uses),
                      seed_only ? "" : millilitres(share.serum_ml),
                      share.short_ml > 0 ? millilitres(share.short_ml) : "", remark(share)});
    }
    page.table({right("col.farm"), left("col.use"), right("col.serum"), right("col.short"),
                left("col.remark")},
               rows);
    page.text(t("meeting.sum",
                {{"n", m.shares.size()}, {"litres", litres(sum)}, {"short", litres(missing)}}));
    if (kept > 0) page.text(t("meeting.kept-for-seed", {{"litres", litres(kept)}}));
  }

  Page shopping() const {
    Page page("shopping", t("page.shopping"));
    Rows rows;
    for (const season::ShoppingLine& line : w_.shopping.lines) {
      std::string packs;
      for (const season::PackChoice& choice : line.packs)
        packs += (packs.empty() ? "" : " + ") +
                 t("shopping.pack", {{"n", choice.count},
                                     {"size", Decimal{choice.pack.pack, 2}},
                                     {"unit", unit(line.unit, choice.pack.pack)}});
      rows.push_back({words_.text("item." + line.item),
                      number(line.need, recipe::amount_places) + " " + unit(line.unit, line.need),
                      line.in_hand > 0.0 ? number(line.in_hand, recipe::amount_places) : "",
                      packs.empty() ? t("shopping.nothing") : packs,
                      words_.number({line.cost.amount(), 0}), words_.date(line.buy_on)});
    }
    page.table({left("col.item"), right("col.need"), right("col.in-hand"), left("col.buy"),
                right("col.cost"), left("col.market")},
               rows);
    page.text(t("shopping.total", {{"money", money_text(w_, w_.shopping.total)}}));
    page.text(t("shopping.milk", {{"money", money_text(w_, w_.cost.milk)}}));
    return page;
  }

  Page stock() const {
    Page page("stock", t("page.stock"));
    Rows rows;
    for (const season::StockChange& c : w_.stock)
      rows.push_back({words_.date(c.date), words_.text("stock." + c.what, {{"batch", c.lot}}),
                      litres(c.change_ml), litres(c.balance_ml)});
    page.table({left("col.date"), left("col.what"), right("col.change"), right("col.left")}, rows);
    return page;
  }

  Page doses() const {
    Page page("doses", t("page.doses"));
    page.text(t("doses.how", {{"parts", Decimal{w_.season.strength_parts, 0}}}));
    std::vector<std::string> lines;
    for (const season::DoseLine& line : w_.doses) lines.push_back(dose_text(w_, line));
    page.list(std::move(lines));
    if (!w_.soaks.empty()) {
      page.heading(t("soak.title"));
      std::vector<std::string> soaks;
      for (const season::SoakLine& line : w_.soaks) soaks.push_back(soak_text(w_, line));
      page.list(std::move(soaks));
      page.caution(words_.text("caution.dressed-seed-never"));
    }
    for (const char* id : {"fresh-same-day", "wear"})
      page.caution(words_.text("caution." + std::string(id)));
    return page;
  }

  // A row for each farm, to be filled in by hand beside the pegged plot.
  Page rehearsal() const {
    const auto& data = w_.session.data;
    const auto runs = static_cast<std::size_t>(data.constant("runs-advised").value);
    Page page("rehearsal", t("page.rehearsal"));
    page.text(t("rehearsal.how",
                {{"runs", runs},
                 {"acre", Decimal{quantity::in_square_metres(quantity::acres(1)), 0}},
                 {"limit", Decimal{100.0 * data.constant("runs-redo-above").value, 0}}}));
    std::vector<Column> columns{left("col.farm"), left("col.method"), left("col.plot-m2")};
    for (std::size_t run = 1; run <= runs; ++run)
      columns.push_back({t("col.run-litres", {{"run", run}}), false});
    for (const char* key : {"col.mean-litres", "col.litres-an-acre", "col.counted-now"})
      columns.push_back(left(key));
    Rows rows;
    for (const season::Farm& farm : w_.season.farms) {
      std::vector<std::string> row(columns.size(), "_____");
      row[0] = farm.code;
      row[1] = words_.text("method." + farm.method.id);
      row.back() =
          farm.method.mix_per_area
              ? t("rehearsal.measured",
                  {{"litres",
                    Decimal{in_litres(*farm.method.mix_per_area * quantity::acres(1)), 1}}})
              : t("rehearsal.assumed",
                  {{"litres", Decimal{data.constant("usual-mix-per-acre").value, 0}}});
      rows.push_back(std::move(row));
    }
    page.table(std::move(columns), std::move(rows));
    page.text(t("rehearsal.then"));
    page.caution(words_.text("caution.sprayer-weedkiller"));
    return page;
  }

  Page cost() const {
    Page page("cost", t("page.cost"));
    const economics::SeasonCost& c = w_.cost;
    const auto row = [&](const char* key, quantity::Money money, const Values& values = {}) {
      return std::vector<std::string>{t(key, values),
                                      words_.number({static_cast<double>(money.whole()), 0})};
    };
    page.table(
        {left("col.item"), {w_.season.currency, true}},
        {row("cost.bought", c.bought), row("cost.milk", c.milk),
         row("cost.labour", c.labour, {{"hours", Decimal{c.labour_hours, 1}}}),
         row("cost.water", c.water, {{"cans", c.cans}}), row("cost.total", c.total()),
         row("cost.per-litre-handed-out", c.per_litre_handed_out(),
             {{"litres", Decimal{c.litres_handed_out, 1}}}),
         row("cost.per-litre-made", c.per_litre_made(), {{"litres", Decimal{c.litres_made, 1}}}),
         row("cost.per-acre", c.per_acre(w_.season.area()))});
    if (c.litres_kept > 0.0) page.text(t("cost.kept", {{"litres", Decimal{c.litres_kept, 2}}}));
    page.text(t("cost.not-counted"));
    return page;
  }

  Page cautions() const {
    Page page("cautions", t("page.cautions"));
    for (const std::string& id : plan_cautions(w_)) page.caution(words_.text("caution." + id));
    return page;
  }

  const WorkedPlan& w_;
  const words::Catalogue& words_;
};

}  // namespace

std::vector<Page> plan_pages(const WorkedPlan& worked) { return PageWriter(worked).all(); }

}  // namespace wheyfield::api
