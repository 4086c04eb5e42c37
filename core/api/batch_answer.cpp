#include "api/batch_answer.h"

#include <algorithm>
#include <cmath>

#include "api/dose_answer.h"
#include "quantity/quantity.h"
#include "sheet/batch_chart.h"

namespace wheyfield::api {
namespace {

using fermentation::HourWindow;
using words::Decimal;
using words::Values;

Json or_null(const std::optional<double>& hours) {
  return hours ? Json(quantity::rounded(*hours, 6)) : Json();
}

Json shares_json(const HourWindow& window) {
  return {{"p10", or_null(window.early)},
          {"p50", or_null(window.likely)},
          {"p90", or_null(window.late)}};
}

Json window_hours_json(const HourWindow& window) {
  return {{"early", or_null(window.early)},
          {"likely", or_null(window.likely)},
          {"late", or_null(window.late)}};
}

Json moment_json(const ToldBatch& batch, const std::optional<double>& hours) {
  if (!hours) return nullptr;
  const OnDay moment = on_day(*batch.began, *hours);
  return {{"on", moment.on.iso()}, {"hour", quantity::rounded(moment.hour, 6)}};
}

Json moments_json(const ToldBatch& batch, const HourWindow& window) {
  return {{"early", moment_json(batch, window.early)},
          {"likely", moment_json(batch, window.likely)},
          {"late", moment_json(batch, window.late)}};
}

std::string part_of_day(double hour) {
  if (hour < 11.0) return "morning";
  if (hour < 14.0) return "noon";
  return hour < 18.0 ? "afternoon" : "evening";
}

// "Fri 5 Mar, noon", or "18 hours".
std::string at_text(const ToldBatch& batch, double hours) {
  const words::Catalogue& w = batch.session.words;
  if (batch.began) return moment_text(w, on_day(*batch.began, hours));
  return w.text("batch.hours", {{"n", static_cast<int>(std::lround(hours))}});
}

std::string window_text(const ToldBatch& batch, const std::string& what, const HourWindow& window) {
  const words::Catalogue& w = batch.session.words;
  Values values{{"days", Decimal{batch.horizon / day_hours, 0}}};
  const std::string when = batch.began ? "batch." : "batch.after-";
  const auto put = [&](const char* name, const std::optional<double>& hours) {
    if (hours) values.insert_or_assign(name, at_text(batch, *hours));
  };
  put("early", window.early);
  put("likely", window.likely);
  put("late", window.late);
  if (window.late) return w.text(when + what, values);
  if (window.likely) return w.text(when + what + "-open", values);
  return w.text("batch." + what + "-never", values);
}

std::string starter_text(const ToldBatch& batch) {
  const words::Catalogue& w = batch.session.words;
  if (batch.brew.starter == fermentation::Starter::none) return w.text("batch.starter-none");
  const double share = batch.brew.starter_share;
  const bool serum = batch.brew.starter == fermentation::Starter::serum;
  return w.text(serum ? "batch.starter-serum" : "batch.starter-rinse-water",
                {{"parts", Decimal{(1.0 - share) / share, 1}}});
}

// Past what is still to come and what was seen, in whole days.
double hours_shown(const ToldBatch& batch, const ChartMarks& marks) {
  double last = std::max(marks.now.value_or(0.0), marks.look.value_or(0.0));
  for (const auto& hours : {batch.outlook.sour.likely, batch.outlook.ready.late})
    if (hours) last = std::max(last, *hours);
  if (!batch.outlook.ready.late) last = batch.horizon;
  return std::min(batch.horizon, day_hours * std::ceil((last + 6.0) / day_hours));
}

// A tick at each midnight, or at each whole day of a batch without a date.
std::vector<sheet::BatchChart::Tick> ticks_of(const ToldBatch& batch, double shown) {
  std::vector<sheet::BatchChart::Tick> ticks;
  const words::Catalogue& w = batch.session.words;
  if (!batch.began) {
    for (double hours = 0.0; hours <= shown; hours += day_hours)
      ticks.push_back({hours, w.text("batch.hours", {{"n", static_cast<int>(hours)}})});
    return ticks;
  }
  for (int day = 1; day_hours * day - batch.began->hour <= shown; ++day)
    ticks.push_back({day_hours * day - batch.began->hour, w.date(batch.began->on + day)});
  return ticks;
}

}  // namespace

OnDay on_day(const Began& began, double hours) {
  const double all = began.hour + hours;
  const int days = static_cast<int>(std::floor(all / day_hours));
  return {began.on + days, all - day_hours * days};
}

std::string moment_text(const words::Catalogue& words, const OnDay& moment) {
  if (moment.hour < 5.0) return words.text("time.night", {{"day", moment.on - 1}});
  if (moment.hour >= 21.0) return words.text("time.night", {{"day", moment.on}});
  return words.text("time." + part_of_day(moment.hour), {{"day", moment.on}});
}

OnDay looking_hour(const Session& session, const OnDay& moment) {
  const double from = session.data.constant("look-from").value;
  const double to = session.data.constant("look-to").value;
  const double hour = std::ceil(moment.hour - 1e-9);
  if (hour > to) return {moment.on + 1, from};
  return {moment.on, std::max(from, hour)};
}

void put_outlook(const ToldBatch& batch, Answer& answer) {
  const fermentation::Outlook& outlook = batch.outlook;
  answer.fields["hours_to_ph"] = {{"4.6", shares_json(outlook.set)},
                                  {"4.2", shares_json(outlook.ready)},
                                  {"3.9", shares_json(outlook.sour)}};
  answer.fields["ready"] = window_hours_json(outlook.ready);
  answer.fields["failed_probability"] = quantity::rounded(outlook.failing, 6);
  answer.fields["set"] = window_hours_json(outlook.set);
  if (!batch.began) return;
  answer.fields["set_window"] = moments_json(batch, outlook.set);
  answer.fields["ready_window"] = moments_json(batch, outlook.ready);
}

std::vector<std::string> outlook_texts(const ToldBatch& batch) {
  std::vector<std::string> texts;
  const bool milk = batch.brew.liquid == fermentation::Liquid::milk;
  const auto ahead = [&](const HourWindow& window) {
    return !window.late || *window.late > batch.now;
  };
  if (milk && !batch.has_set && ahead(batch.outlook.set))
    texts.push_back(window_text(batch, "set", batch.outlook.set));
  if (ahead(batch.outlook.ready))
    texts.push_back(window_text(batch, milk ? "sour" : "rinse-sour", batch.outlook.ready));
  return texts;
}

std::string basis_text(const ToldBatch& batch) {
  const words::Catalogue& w = batch.session.words;
  const Values values{{"litres", Decimal{batch.litres, 1}}, {"starter", starter_text(batch)}};
  if (batch.brew.liquid == fermentation::Liquid::rinse_water)
    return w.text("batch.basis-rinse-water", values);
  return w.text(
      batch.brew.milk == fermentation::Milk::raw ? "batch.basis-raw" : "batch.basis-heated",
      values);
}

void hours_table(const ToldBatch& batch, sheet::Page& page) {
  const words::Catalogue& w = batch.session.words;
  const auto cell = [&](const std::optional<double>& hours) {
    return hours ? at_text(batch, *hours) : w.text("batch.never");
  };
  std::vector<std::vector<std::string>> rows;
  const auto row = [&](const char* what, const HourWindow& window) {
    const bool milk = batch.brew.liquid == fermentation::Liquid::milk;
    rows.push_back({w.text(std::string(milk ? "batch.row-" : "batch.row-rinse-water-") + what),
                    cell(window.early), cell(window.likely), cell(window.late)});
  };
  row("set", batch.outlook.set);
  row("ready", batch.outlook.ready);
  row("sour", batch.outlook.sour);
  page.table({{w.text("batch.col-what")},
              {w.text("batch.col-early")},
              {w.text("batch.col-likely")},
              {w.text("batch.col-late")}},
             std::move(rows));
}

std::string chart_of(const ToldBatch& batch, const ChartMarks& marks) {
  const words::Catalogue& w = batch.session.words;
  sheet::BatchChart chart;
  chart.title = marks.title.empty() ? w.text("batch.chart-title") : marks.title;
  for (const std::string& text : outlook_texts(batch))
    chart.description += (chart.description.empty() ? "" : " ") + text;
  chart.hours_shown = hours_shown(batch, marks);
  chart.ticks = ticks_of(batch, chart.hours_shown);
  for (const fermentation::PhBand& at : batch.outlook.band)
    if (at.hours <= chart.hours_shown) chart.band.push_back({at.hours, at.low, at.likely, at.high});
  for (const fermentation::Look& look : marks.looks)
    if (look.ph)
      chart.readings.push_back({look.hours, *look.ph, fermentation::step_of(look.scale) / 2.0});
  const HourWindow& ready = batch.outlook.ready;
  if (ready.early && ready.likely && ready.late)
    chart.use = {*ready.early, *ready.likely, *ready.late, w.text("batch.chart-use")};
  if (batch.brew.liquid == fermentation::Liquid::milk)
    chart.lines.push_back({batch.outlook.curd_ph, w.text("batch.chart-set")});
  chart.lines.push_back({batch.outlook.ready_ph, w.text("batch.chart-ready")});
  if (marks.now) chart.marks.push_back({*marks.now, w.text("batch.chart-now")});
  if (marks.look) chart.marks.push_back({*marks.look, w.text("batch.chart-look")});
  chart.y_title = w.text("batch.chart-y");
  chart.band_label = w.text("batch.chart-band");
  chart.read_label = w.text("batch.chart-read");
  return sheet::batch_chart_svg(chart);
}

void note_model(const Session& session, const fermentation::ParameterTable& table, Answer& answer) {
  table.note(answer.used);
  for (const char* id : {"morning-hour", "afternoon-hour", "batch-hour", "look-from", "look-to"})
    noted(session, id, "hours of the day", answer);
}

}  // namespace wheyfield::api
