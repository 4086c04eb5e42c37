// A trial plot: plain-water twin first, then serum by syringe; and the rehearsal that measures the
// farm's own litres.
#include "api/dose_answer.h"
#include "api/dose_fields.h"
#include "api/field_reader.h"
#include "dosing/measured.h"
#include "dosing/plot.h"

namespace wheyfield::api {
namespace {

using outcome::Problems;
using outcome::Result;
using quantity::in_litres;
using quantity::in_millilitres;
using quantity::Length;
using quantity::rounded;
using words::Decimal;

const Fields plot_fields{"DosePlot",
                         {{"size", Holds::size_by_size, true},
                          {"strength", Holds::strength, true},
                          {"rate", Holds::mix_per_area, false},
                          {"used", Holds::texts, false},
                          {"area", Holds::area, false},
                          {"syringe_step", Holds::volume, false},
                          {"farm", Holds::text, false},
                          {"pages", Holds::flag, false}}};

struct Rate {
  std::optional<Length> value;  // nothing where the runs were not the same job
  std::string from;             // given, rehearsal, assumed
};

// Her own rate, the mean of the plain-water runs (on the plot itself when no area is told), or the
// usual mix, and then said to be assumed.
Result<Rate> find_rate(const Session& session, const FieldReader& r, quantity::Area plot,
                       Answer& answer) {
  answer.fields["rehearsal"] = nullptr;
  if (const auto rate = r.mix_per_area("rate")) return Rate{*rate, "given"};
  const std::vector<quantity::Volume> used = r.volumes("used");
  if (used.empty()) {
    const double usual = noted(session, "usual-mix-per-acre", "mix per area", answer).value;
    answer.problems.push_back({"rate-assumed",
                               "/rate",
                               "",
                               {{"usual", std::to_string(static_cast<int>(usual))}},
                               outcome::Severity::notice});
    return Rate{quantity::litres(usual) / quantity::acres(1), "assumed"};
  }
  const quantity::Area area = r.plot("area").value_or(plot);
  const std::map<std::string, std::string> names{{"/runs", "/used"}};
  const auto told = dosing::rehearse(used, area, run_limits(session, answer));
  if (!told) return outcome::failure(renamed(told.error(), names));
  outcome::append(answer.problems, renamed(told->problems, names));
  std::vector<Length> rates;
  for (const quantity::Volume one : used) rates.push_back(one / area);
  answer.fields["rehearsal"] = runs_json(rates, *told);
  answer.fields["rehearsal"]["area_m2"] = rounded(quantity::in_square_metres(area), 6);
  return Rate{told->apart ? std::nullopt : std::optional(told->mean), "rehearsal"};
}

Json steps_json(const dosing::PlotDose& dose) {
  Json steps = Json::array();
  for (const dosing::PlotStep& step : dose.order)
    steps.push_back({{"plot", step.plot == dosing::PlotStep::Plot::serum ? "serum" : "plain-water"},
                     {"water_l", rounded(in_litres(step.water), 6)},
                     {"syringe_ml", rounded(in_millilitres(step.syringe), 6)}});
  return steps;
}

sheet::Page page_of(const Session& session, const dosing::PlotDose& dose, const Rate& rate,
                    double parts, quantity::Volume step, const Answer& answer) {
  const words::Catalogue& w = session.words;
  words::Values values = rate_values(*rate.value, parts);
  values.insert({{"area", Decimal{quantity::in_square_metres(dose.area), 1}},
                 {"water", Decimal{in_litres(dose.water), 2}},
                 {"serum", Decimal{in_millilitres(dose.serum), 2}},
                 {"syringe", Decimal{in_millilitres(dose.syringe), 2}},
                 {"step", Decimal{in_millilitres(step), 2}}});
  sheet::Page page("plot", w.text("dose.plot-title"));
  page.text(w.text("dose.plot", values));
  if (rate.from == "rehearsal") {
    const Json& rehearsal = answer.fields["rehearsal"];
    values.insert_or_assign("n", rehearsal["litres_per_ha"].size());
    values.insert_or_assign("area", Decimal{rehearsal["area_m2"].get<double>(), 1});
    page.text(w.text("dose.rehearsed", values));
  } else {
    page.text(
        w.text(rate.from == "given" ? "dose.plot-rate-given" : "dose.plot-rate-assumed", values));
  }
  page.heading(w.text("dose.plot-order"));
  page.list({w.text("dose.plot-plain", values), w.text("dose.plot-serum", values),
             w.text("dose.plot-same", values)});
  page.text(w.text("dose.plot-never-caps", values));
  page.text(w.text("dose.per-100", values));
  if (rate.from == "rehearsal") offer_rate(session, *rate.value, values, page);
  caution_leaves(session, parts, page);
  return page;
}

sheet::Page unsettled_page(const Session& session, const Answer& answer) {
  sheet::Page page("plot", session.words.text("dose.plot-title"));
  list_runs(session.words, answer.fields["rehearsal"], page);
  return page;
}

}  // namespace

const Fields& dose_plot_fields() { return plot_fields; }

Result<Answer> dose_plot(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, plot_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto size = r.size_by_size("size");
  const auto parts = r.strength("strength");
  const auto own_step = r.volume("syringe_step");
  for (outcome::Problem& problem : problems)
    if (problem.code == "spacing-unreadable") problem.code = "size-unreadable";
  if (const auto own = r.mix_per_area("rate"))
    r.refuse_outside(session.data.constant("mix-rate-limits"), "mix-rate-out-of-range", "rate",
                     dosing::in_litres_per_acre(*own));
  r.volumes("used"), r.plot("area");
  if (r.given("rate") && r.given("used")) r.add("rate-or-rehearsal", "rate", *r.text("rate"));
  if (r.given("area")) r.want("used");
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto rate = find_rate(session, r, size->first * size->second, answer);
  if (!rate) return outcome::failure(rate.error());
  judge_strength(session, *parts, *r.text("strength"), answer);
  answer.fields["area_m2"] = rounded(quantity::in_square_metres(size->first * size->second), 6);
  answer.fields["strength"] = {{"parts", *parts}};
  answer.fields["rate_from"] = rate->from;
  for (const char* name : {"water_l", "serum_ml", "syringe_ml", "off", "steps"})
    answer.fields[name] = nullptr;
  add_cautions(session, {"trial-plot-without", "fresh-same-day", "wear", "evidence-weak"}, answer);
  if (!rate->value) {
    add_no_rate(answer);
    if (r.flag("pages")) add_page(session, unsettled_page(session, answer), answer);
    return answer;
  }
  const quantity::Volume step =
      own_step ? *own_step
               : quantity::millilitres(noted(session, "syringe-step", "syringe", answer).value);
  const auto dose = dosing::plot_dose(size->first, size->second, *rate->value, *parts, step,
                                      noted(session, "syringe-tolerance", "syringe", answer).value);
  if (!dose) return outcome::failure(dose.error());
  add_rate(*rate->value, *parts, answer);
  answer.fields["water_l"] = rounded(in_litres(dose->water), 6);
  answer.fields["serum_ml"] = rounded(in_millilitres(dose->serum), 6);
  answer.fields["syringe_ml"] = rounded(in_millilitres(dose->syringe), 6);
  answer.fields["off"] = rounded(dose->off, 6);
  answer.fields["steps"] = steps_json(*dose);
  if (r.flag("pages"))
    add_page(session, page_of(session, *dose, *rate, *parts, step, answer), answer);
  return answer;
}

}  // namespace wheyfield::api
