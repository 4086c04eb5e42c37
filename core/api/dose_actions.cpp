#include <cmath>

#include "api/dose_answer.h"
#include "api/dose_fields.h"
#include "api/field_reader.h"
#include "dosing/dilution.h"

namespace wheyfield::api {
namespace {

using quantity::in_litres;
using quantity::in_millilitres;
using quantity::rounded;
using words::Decimal;

const Fields dose_fields{"DoseMix",
                         {{"water", Holds::volume, true},
                          {"cap", Holds::volume, false},
                          {"strength", Holds::strength, true},
                          {"reading", Holds::choice, false, "added-to|in-total"},
                          {"farm", Holds::text, false},
                          {"pages", Holds::flag, false}}};

sheet::Page page(const Session& session, const Answer& answer, const words::Values& values,
                 bool measured, bool fits) {
  const words::Catalogue& w = session.words;
  sheet::Page page("dose", w.text("dose.title"));
  page.text(w.text("dose.serum", values));
  page.text(
      w.text(answer.fields["reading"] == "in-total" ? "dose.in-total" : "dose.added-to", values));
  if (!measured)
    page.caution(w.text("dose.measure-first", values));
  else
    page.text(w.text(fits                           ? "dose.caps"
                     : answer.fields["caps"] == 0.0 ? "dose.caps-none"
                                                    : "dose.caps-off",
                     values));
  caution_leaves(session, answer.fields["strength"]["parts"].get<double>(), page);
  return page;
}

}  // namespace

const Fields& dose_mix_fields() { return dose_fields; }

outcome::Result<Answer> dose_mix(const Session& session, const nlohmann::json& body) {
  Answer answer;
  outcome::Problems problems = check_shape(body, dose_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto water = r.volume("water");
  const auto cap = r.volume("cap");
  const auto parts = r.strength("strength");
  if (cap)
    r.refuse_outside(session.data.constant("cap-volume-limits"), "cap-out-of-range", "cap",
                     in_millilitres(*cap));
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const bool in_total = r.text("reading").value_or("added-to") == "in-total";
  const auto reading = in_total ? dosing::Reading::in_total : dosing::Reading::added_to;
  const quantity::Volume serum = dosing::serum_for(*water, *parts, reading);
  const quantity::Volume filled_up = dosing::serum_for(*water, *parts, dosing::Reading::in_total);
  const double step = session.data.constant("cap-half-step").value;
  const double tolerance = session.data.constant("dose-tolerance").value;
  answer.used.note(session.data.constant("cap-half-step").origin, "caps");
  answer.used.note(session.data.constant("dose-tolerance").origin, "caps");
  answer.fields["water_l"] = rounded(in_litres(*water), 6);
  answer.fields["strength"] = {{"parts", *parts}};
  answer.fields["reading"] = in_total ? "in-total" : "added-to";
  answer.fields["serum_ml"] = rounded(in_millilitres(serum), 6);
  judge_strength(session, *parts, *r.text("strength"), answer);
  words::Values values{{"water", Decimal{in_litres(*water), 2}},
                       {"serum", told_millilitres(serum)},
                       {"parts", Decimal{*parts, 1}},
                       {"filled_up", Decimal{in_millilitres(filled_up), 2}},
                       {"less", Decimal{100.0 - 100.0 * (filled_up / serum), 2}}};
  bool fits = false;
  answer.fields["caps"] = nullptr;
  if (cap) {
    const auto caps = dosing::count_caps(serum, cap, *water, step, tolerance, reading);
    if (!caps) return outcome::failure(caps.error());
    fits = caps->fits;
    answer.fields["caps"] = caps->caps;
    answer.fields["cap"] = caps_json(*caps);
    values.insert_or_assign("n", caps->caps);
    values.insert_or_assign("cap", Decimal{in_millilitres(*cap), 1});
    values.insert_or_assign("given", Decimal{in_millilitres(caps->given), 1});
    values.insert_or_assign("real_parts", Decimal{caps->parts, 0});
    values.insert_or_assign("off", Decimal{100.0 * std::fabs(caps->off), 0});
    if (!fits)
      answer.problems.push_back(
          {"dose-caps-off", "/cap", *r.text("cap"), {}, outcome::Severity::notice});
  } else {
    answer.problems.push_back({"cap-unmeasured", "/cap", "", {}, outcome::Severity::notice});
  }
  note_formula("dilution", answer);
  add_cautions(session, {"fresh-same-day", "wear", "not-a-fertiliser"}, answer);
  if (r.flag("pages"))
    add_page(session, page(session, answer, values, cap.has_value(), fits), answer);
  return answer;
}

}  // namespace wheyfield::api
