// Litres per area of a sprayer, can or leafy branch, and its loads for one field.
#include <cmath>

#include "api/dose_answer.h"
#include "api/dose_fields.h"
#include "api/field_reader.h"
#include "dosing/measured.h"
#include "dosing/sprayer.h"

namespace wheyfield::api {
namespace {

using dosing::in_litres_per_hectare;
using outcome::Problems;
using outcome::Result;
using quantity::in_litres;
using quantity::in_millilitres;
using quantity::Length;
using quantity::rounded;
using quantity::Volume;
using words::Decimal;

const Fields sprayer_fields{"DoseSprayer",
                            {{"by", Holds::choice, true, "area|time|128th-acre|flow|rate"},
                             {"strength", Holds::strength, true},
                             {"run", Holds::texts, false},
                             {"plot", Holds::area, false},
                             {"cover", Holds::number, false},
                             {"catch", Holds::number, false},
                             {"walk", Holds::number, false},
                             {"swath", Holds::length, false},
                             {"rate", Holds::mix_per_area, false},
                             {"method", Holds::choice, false, "knapsack|leafy-branch|can"},
                             {"usual", Holds::mix_per_area, false},
                             {"field", Holds::area, false},
                             {"tank", Holds::volume, false},
                             {"cap", Holds::volume, false},
                             {"nozzle", Holds::text, false},
                             {"pressure", Holds::number, false},
                             {"farm", Holds::text, false},
                             {"pages", Holds::flag, false}}};

struct AskedSprayer {
  std::string by;
  std::string method;
  double parts = 0.0;
  std::vector<Volume> run;
  std::optional<quantity::Area> plot;
  std::optional<double> cover, catching, walk, pressure;
  std::optional<Length> swath, rate, usual;
  std::optional<quantity::Area> field;
  std::optional<Volume> tank, cap;
  std::optional<std::string> nozzle;
};

const std::vector<Way> sprayer_ways{{"area", {"run", "plot"}, {}},
                                    {"time", {"run", "plot", "cover"}, {"catch"}},
                                    {"128th-acre", {"run"}, {"cover", "catch"}},
                                    {"flow", {"run", "walk", "swath"}, {}},
                                    {"rate", {"rate"}, {}}};

// What is written in the wrong unit, or is no nozzle of the table.
void judge_sizes(const Session& session, const AskedSprayer& a, const FieldReader& r) {
  if (const auto size = dosing::nozzle_size(a.nozzle.value_or("")); size)
    r.refuse_outside(session.data.constant("nozzle-size-limits"), "nozzle-size-out-of-range",
                     "nozzle", *size);
  if (a.pressure && *a.pressure > 0.0)
    r.refuse_outside(session.data.constant("nozzle-pressure-limits"), "pressure-out-of-range",
                     "pressure", *a.pressure);
  const bool sprayer = a.method == "knapsack";
  if (a.tank)
    r.refuse_outside(session.data.constant(sprayer ? "sprayer-volume-limits" : "can-volume-limits"),
                     sprayer ? "sprayer-out-of-range" : "can-out-of-range", "tank",
                     in_litres(*a.tank));
  for (const auto& [name, rate] : {std::pair{"rate", a.rate}, {"usual", a.usual}})
    if (rate)
      r.refuse_outside(session.data.constant("mix-rate-limits"), "mix-rate-out-of-range", name,
                       dosing::in_litres_per_acre(*rate));
  if (a.walk && *a.walk > 0.0)
    r.refuse_outside(session.data.constant("walk-limits"), "walk-out-of-range", "walk", *a.walk);
}

AskedSprayer read(const Session& session, const FieldReader& r) {
  AskedSprayer a;
  a.by = *r.text("by");
  a.method = r.text("method").value_or("knapsack");
  a.parts = r.strength("strength").value_or(0.0);
  a.run = r.volumes("run");
  a.plot = r.plot("plot");
  a.cover = r.number("cover");
  a.catching = r.number("catch");
  a.walk = r.number("walk");
  a.swath = r.length("swath");
  a.rate = r.mix_per_area("rate");
  a.usual = r.mix_per_area("usual");
  a.field = r.area("field");
  a.tank = r.volume("tank");
  a.cap = r.volume("cap");
  a.nozzle = r.text("nozzle");
  a.pressure = r.number("pressure");
  hold_to_way(sprayer_ways, a.by, r);
  if (a.by == "128th-acre" && a.catching) {
    r.want("cover");
    if (a.cover && *a.cover != *a.catching)
      r.add("catch-as-long", "catch", *r.text("catch"), {{"cover", *r.text("cover")}});
  }
  if (r.given("field") || r.given("tank") || r.given("cap")) r.want("tank"), r.want("field");
  if (a.nozzle || a.pressure) r.want("nozzle"), r.want("pressure");
  judge_sizes(session, a, r);
  if (a.method != "knapsack" && a.by != "area" && a.by != "rate") r.add("sprayer-only", "by", a.by);
  if (a.cap)
    r.refuse_outside(session.data.constant("cap-volume-limits"), "cap-out-of-range", "cap",
                     in_millilitres(*a.cap));
  return a;
}

Result<Length> rate_of(const AskedSprayer& a, Volume run) {
  if (a.by == "area") return dosing::rate_by_area(run, *a.plot);
  if (a.by == "time")
    return dosing::rate_by_time(*a.plot, *a.cover, run, a.catching.value_or(*a.cover));
  if (a.by == "128th-acre") return dosing::rate_by_128th(run);
  const auto speed = dosing::walking_speed(*a.walk);
  if (!speed) return outcome::failure(speed.error());
  return dosing::rate_by_flow(in_litres(run), *speed, *a.swath);
}

// A rate that was measured is no slip of a unit for sure: it is asked about, not refused.
void question_rate(const Session& session, const AskedSprayer& a, Length rate, Answer& answer) {
  const char* limits = a.method == "knapsack" ? "sprayer-rate-usual" : "mix-rate-limits";
  const auto& usual = noted(session, limits, "rate", answer);
  const double per_acre = rounded(dosing::in_litres_per_acre(rate), 6);
  if (per_acre >= usual.low && per_acre <= usual.high) return;
  answer.problems.push_back(
      {"rate-unusual",
       a.by == "rate" ? "/rate" : "/run",
       dosing::shown(rounded(per_acre, 1)) + " L/acre",
       {{"low", dosing::shown(usual.low)}, {"high", dosing::shown(usual.high)}},
       outcome::Severity::question});
}

const std::map<std::string, std::string> names{{"/runs", "/run"},
                                               {"/used", "/run"},
                                               {"/caught", "/run"},
                                               {"/flow", "/run"},
                                               {"/area", "/plot"},
                                               {"/cover_seconds", "/cover"},
                                               {"/catch_seconds", "/catch"},
                                               {"/seconds", "/walk"},
                                               {"/size", "/nozzle"}};

// The mean of the runs, each of them told; nothing where they were not the same job.
Result<std::optional<Length>> mean_rate(const Session& session, const AskedSprayer& a,
                                        Answer& answer) {
  answer.fields["runs"] = nullptr;
  if (a.by == "rate") return a.rate;
  std::vector<Length> rates;
  for (const Volume run : a.run) {
    const auto rate = rate_of(a, run);
    if (!rate) return outcome::failure(renamed(rate.error(), names));
    rates.push_back(*rate);
  }
  const auto runs = dosing::mean_of_runs(rates, run_limits(session, answer));
  if (!runs) return outcome::failure(renamed(runs.error(), names));
  outcome::append(answer.problems, renamed(runs->problems, names));
  answer.fields["runs"] = runs_json(rates, *runs);
  return runs->apart ? std::nullopt : std::optional(runs->mean);
}

const char* state_word(dosing::NozzleState state) {
  switch (state) {
    case dosing::NozzleState::worn:
      return "worn";
    case dosing::NozzleState::low:
      return "low";
    case dosing::NozzleState::good:
      break;
  }
  return "good";
}

// The nominal flow of the nozzle, and its wear where one minute can be told from settled runs.
Problems judge_nozzle(const Session& session, const AskedSprayer& a, bool settled, Answer& answer) {
  answer.fields["nozzle"] = nullptr;
  if (!a.nozzle) return {};
  const auto size = dosing::nozzle_size(*a.nozzle);
  const dosing::NozzleRule rule{noted(session, "nozzle-size-flow", "nozzle", answer).value,
                                noted(session, "nozzle-size-pressure", "nozzle", answer).value};
  const auto flow = dosing::nozzle_flow(size.value_or(1.0), *a.pressure, rule);
  Problems bad = size ? Problems{} : size.error();
  if (!flow) outcome::append(bad, flow.error());
  if (!bad.empty()) return renamed(bad, names);
  Json nozzle = {{"litres_per_minute", rounded(*flow, 6)},
                 {"measured", nullptr},
                 {"off", nullptr},
                 {"state", nullptr}};
  if (settled && (a.by == "time" || a.by == "flow")) {
    const double seconds = a.by == "flow" ? 60.0 : a.catching.value_or(*a.cover);
    double measured = 0.0;
    for (const Volume run : a.run)
      measured += in_litres(run) * 60.0 / seconds / static_cast<double>(a.run.size());
    const auto check =
        dosing::check_nozzle(measured, *flow,
                             {noted(session, "nozzle-worn-above", "nozzle", answer).value,
                              noted(session, "nozzle-low-below", "nozzle", answer).value});
    if (!check) return renamed(check.error(), names);
    nozzle["measured"] = rounded(measured, 6);
    nozzle["off"] = rounded(check->off, 6);
    nozzle["state"] = state_word(check->state);
    if (check->state == dosing::NozzleState::low)
      answer.problems.push_back({"nozzle-low",
                                 "/nozzle",
                                 *a.nozzle,
                                 {{"percent", std::to_string(std::lround(-100.0 * check->off))}},
                                 outcome::Severity::question});
  }
  answer.fields["nozzle"] = std::move(nozzle);
  return {};
}

std::string nozzle_text(const words::Catalogue& w, const Json& nozzle) {
  words::Values values{{"flow", Decimal{nozzle["litres_per_minute"].get<double>(), 2}}};
  if (nozzle["off"].is_null()) return w.text("dose.nozzle", values);
  values.insert_or_assign("measured", Decimal{nozzle["measured"].get<double>(), 2});
  const double percent = rounded(100.0 * nozzle["off"].get<double>(), 0);
  values.insert_or_assign("off", Decimal{std::fabs(percent), 0});
  const std::string state = nozzle["state"].get<std::string>();
  if (state != "good") return w.text("dose.nozzle-" + state, values);
  return w.text(percent > 0.0   ? "dose.nozzle-good-more"
                : percent < 0.0 ? "dose.nozzle-good-less"
                                : "dose.nozzle-good",
                values);
}

sheet::Page unsettled_sprayer_page(const Session& session, const Answer& answer) {
  sheet::Page page("sprayer", session.words.text("dose.sprayer-title"));
  list_runs(session.words, answer.fields["runs"], page);
  if (const Json& nozzle = answer.fields["nozzle"]; !nozzle.is_null())
    page.text(nozzle_text(session.words, nozzle));
  return page;
}

sheet::Page page_of(const Session& session, const AskedSprayer& a, Length rate, Length usual,
                    const std::optional<CountedLoads>& counted, const Answer& answer) {
  const words::Catalogue& w = session.words;
  words::Values values = rate_values(rate, a.parts);
  values.insert({{"method", w.text("method." + a.method)},
                 {"times", Decimal{rate / usual, rate / usual < 10.0 ? 1 : 0}},
                 {"percent", Decimal{100.0 * (rate / usual), rate / usual < 0.01 ? 2 : 0}},
                 {"usual", Decimal{in_litres_per_hectare(usual), 1}},
                 {"usual_100", told_millilitres(dosing::serum_per_100_m2(usual, a.parts))}});
  sheet::Page page("sprayer", w.text("dose.sprayer-title"));
  page.text(w.text("dose.rate", values));
  if (const Json& runs = answer.fields["runs"]; !runs.is_null() && a.run.size() > 1) {
    values.insert_or_assign("n", a.run.size());
    values.insert_or_assign("spread", Decimal{100.0 * runs["spread"].get<double>(), 1});
    page.text(w.text("dose.runs", values));
  }
  page.text(w.text("dose.per-100", values));
  const double tenths = rounded(rate / usual, 1);
  const std::string share = tenths > 1.0 ? "times" : tenths == 1.0 ? "same" : "part";
  page.text(w.text("dose." + share + (a.usual ? "-usual" : "-assumed"), values));
  if (counted) {
    values.insert_or_assign("acres", Decimal{quantity::in_acres(*a.field), 2});
    values.insert_or_assign("area", Decimal{quantity::in_square_metres(*a.field), 0});
    values.insert_or_assign("mix", Decimal{in_litres(rate * *a.field), 2});
    values.insert_or_assign("serum", told_millilitres(rate * *a.field / a.parts));
    page.heading(w.text("dose.this-field"));
    page.text(w.text("dose.field", values));
    page.text(loads_text(w, *counted));
    if (!a.cap) page.caution(w.text("dose.measure-first"));
  }
  if (!answer.fields["nozzle"].is_null()) page.text(nozzle_text(w, answer.fields["nozzle"]));
  offer_rate(session, rate, values, page);
  caution_leaves(session, a.parts, page);
  return page;
}

std::initializer_list<const char*> cautions_of(const std::string& method) {
  static constexpr auto can = {"strong-can", "fresh-same-day", "wear", "not-a-fertiliser"};
  static constexpr auto sprayer = {"sprayer-weedkiller", "fresh-same-day", "wear",
                                   "not-a-fertiliser"};
  static constexpr auto branch = {"fresh-same-day", "wear", "not-a-fertiliser"};
  return method == "can" ? can : method == "knapsack" ? sprayer : branch;
}

Result<Json> loads_of(const Session& session, const AskedSprayer& a, Length rate,
                      std::optional<CountedLoads>& counted, Answer& answer) {
  const auto dose = dosing::dose_field(rate, *a.field, *a.tank, a.parts,
                                       session.data.constant("negligible-load").value);
  if (!dose) return outcome::failure(renamed(dose.error(), {{"/area", "/field"}}));
  counted = count_loads(session, dose->mix, *a.tank, a.method == "knapsack" ? "sprayer" : "can",
                        a.parts, a.cap, answer);
  Json field = {{"area_m2", rounded(quantity::in_square_metres(*a.field), 6)},
                {"mix_l", rounded(in_litres(dose->mix), 6)},
                {"serum_ml", rounded(in_millilitres(dose->serum), 6)}};
  field.update(loads_json(*counted));
  return field;
}

}  // namespace

const Fields& dose_sprayer_fields() { return sprayer_fields; }

Result<Answer> dose_sprayer(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, sprayer_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const AskedSprayer a = read(session, r);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  answer.fields = {{"by", a.by}, {"method", a.method}, {"strength", {{"parts", a.parts}}}};
  const auto rate = mean_rate(session, a, answer);
  if (!rate) outcome::append(problems, rate.error());
  outcome::append(problems, judge_nozzle(session, a, rate && *rate, answer));
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  judge_strength(session, a.parts, *r.text("strength"), answer);
  for (const char* name : {"us_gallons_per_acre", "times_usual", "field"})
    answer.fields[name] = nullptr;
  add_cautions(session, cautions_of(a.method), answer);
  if (!*rate) {
    add_no_rate(answer);
    if (r.flag("pages")) add_page(session, unsettled_sprayer_page(session, answer), answer);
    return answer;
  }
  const Length usual =
      a.usual ? *a.usual
              : quantity::litres(noted(session, "usual-mix-per-acre", "usual rate", answer).value) /
                    quantity::acres(1);
  add_rate(**rate, a.parts, answer);
  question_rate(session, a, **rate, answer);
  answer.fields["us_gallons_per_acre"] = rounded(dosing::in_us_gallons_per_acre(**rate), 6);
  answer.fields["times_usual"] = rounded(**rate / usual, 6);
  std::optional<CountedLoads> counted;
  if (a.field) {
    auto field = loads_of(session, a, **rate, counted, answer);
    if (!field) return outcome::failure(field.error());
    answer.fields["field"] = std::move(*field);
  }
  if (r.flag("pages"))
    add_page(session, page_of(session, a, **rate, usual, counted, answer), answer);
  return answer;
}

}  // namespace wheyfield::api
