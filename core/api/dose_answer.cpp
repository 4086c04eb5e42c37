#include "api/dose_answer.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "dosing/measured.h"

namespace wheyfield::api {

using quantity::in_litres;
using quantity::in_millilitres;
using quantity::rounded;
using words::Decimal;
using words::Values;

namespace {

bool uses(const Way& way, const std::string& field) {
  const auto is = [&](const char* name) { return field == name; };
  return std::any_of(way.needs.begin(), way.needs.end(), is) ||
         std::any_of(way.takes.begin(), way.takes.end(), is);
}

}  // namespace

void hold_to_way(const std::vector<Way>& ways, const std::string& chosen, const FieldReader& r) {
  const Way* own = nullptr;
  std::map<std::string, std::string> used_by;
  for (const Way& way : ways) {
    if (way.name == chosen) own = &way;
    for (const auto* fields : {&way.needs, &way.takes})
      for (const char* field : *fields) {
        std::string& names = used_by[field];
        names += (names.empty() ? "" : ", ") + way.name;
      }
  }
  for (const char* field : own->needs) r.want(field);
  for (const auto& [field, names] : used_by)
    if (!uses(*own, field) && r.given(field.c_str()))
      r.add("not-of-this-way", field.c_str(), r.text(field.c_str()).value_or(""),
            {{"option", field}, {"way", chosen}, {"ways", names}});
}

const reference_data::Sourced& noted(const Session& session, std::string_view id,
                                     const char* used_for, Answer& answer) {
  const reference_data::Sourced& row = session.data.constant(id);
  answer.used.note(row.origin, used_for);
  return row;
}

dosing::RunLimits run_limits(const Session& session, Answer& answer) {
  const auto value = [&](const char* id) { return noted(session, id, "runs", answer).value; };
  return {static_cast<std::size_t>(value("runs-advised")), value("runs-redo-above"),
          value("runs-apart-above")};
}

bool too_strong_for_leaves(const Session& session, double parts) {
  return parts < session.data.constant("leaf-strength-limit-parts").value;
}

namespace {

std::string whole(double n) { return std::to_string(std::lround(n)); }

}  // namespace

void question_strength(const Session& session, double parts, const std::string& written,
                       Answer& answer) {
  const auto& usual = noted(session, "usual-strength-parts", "strength", answer);
  if (parts < usual.low)
    answer.problems.push_back({"strength-strong",
                               "/strength",
                               written,
                               {{"low", whole(usual.low)}, {"high", whole(usual.high)}},
                               outcome::Severity::question});
}

void judge_strength(const Session& session, double parts, const std::string& written,
                    Answer& answer) {
  question_strength(session, parts, written, answer);
  const auto& leaves = noted(session, "leaf-strength-limit-parts", "strength", answer);
  if (too_strong_for_leaves(session, parts))
    answer.problems.push_back({"strength-not-for-leaves",
                               "/strength",
                               written,
                               {{"limit", whole(leaves.value)}},
                               outcome::Severity::notice});
}

void caution_leaves(const Session& session, double parts, sheet::Page& page) {
  if (too_strong_for_leaves(session, parts))
    page.caution(
        session.words.text("dose.not-for-leaves",
                           {{"limit", session.data.constant("leaf-strength-limit-parts").value}}));
}

void add_rate(quantity::Length rate, double parts, Answer& answer) {
  answer.fields["litres_per_ha"] = rounded(dosing::in_litres_per_hectare(rate), 6);
  answer.fields["litres_per_acre"] = rounded(dosing::in_litres_per_acre(rate), 6);
  answer.fields["serum_ml_per_100_m2"] =
      rounded(in_millilitres(dosing::serum_per_100_m2(rate, parts)), 6);
}

Decimal told_millilitres(quantity::Volume volume) {
  const double ml = in_millilitres(volume);
  return {ml, ml >= 100.0 ? 0 : ml >= 10.0 ? 1 : 2};
}

void add_no_rate(Answer& answer) {
  for (const char* name : {"litres_per_ha", "litres_per_acre", "serum_ml_per_100_m2"})
    answer.fields[name] = nullptr;
}

void offer_rate(const Session& session, quantity::Length rate, const Values& values,
                sheet::Page& page) {
  const auto& limits = session.data.constant("mix-rate-limits");
  const double written = rounded(dosing::in_litres_per_acre(rate), 1);
  if (written >= limits.low && written <= limits.high)
    page.text(session.words.text("dose.for-season-file", values));
}

Json runs_json(const std::vector<quantity::Length>& rates, const dosing::Runs& runs) {
  Json each = Json::array();
  for (const quantity::Length one : rates)
    each.push_back(rounded(dosing::in_litres_per_hectare(one), 6));
  return {{"litres_per_ha", std::move(each)}, {"spread", rounded(runs.spread, 6)}};
}

void list_runs(const words::Catalogue& words, const Json& runs, sheet::Page& page) {
  std::vector<std::string> items;
  for (const Json& one : runs["litres_per_ha"])
    items.push_back(words.text(
        "dose.run", {{"run", items.size() + 1}, {"per_ha", Decimal{one.get<double>(), 1}}}));
  page.list(std::move(items));
  page.caution(words.text("dose.runs-apart",
                          {{"spread", Decimal{100.0 * runs["spread"].get<double>(), 0}}}));
}

Values rate_values(quantity::Length rate, double parts) {
  const double per_acre = dosing::in_litres_per_acre(rate);
  return {{"per_ha", Decimal{dosing::in_litres_per_hectare(rate), 1}},
          {"per_acre", Decimal{per_acre, 1}},
          {"mix_rate", dosing::shown(rounded(per_acre, 1))},
          {"parts", Decimal{parts, 1}},
          {"on_100", told_millilitres(dosing::serum_per_100_m2(rate, parts))}};
}

Json caps_json(const dosing::CapCount& caps) {
  return {{"count", caps.caps},
          {"given_ml", rounded(in_millilitres(caps.given), 6)},
          {"strength", {{"parts", rounded(caps.parts, 6)}}},
          {"off", rounded(caps.off, 6)},
          {"fits", caps.fits}};
}

CountedLoads count_loads(const Session& session, quantity::Volume mix, quantity::Volume container,
                         const char* container_word, double parts,
                         std::optional<quantity::Volume> cap, Answer& answer) {
  CountedLoads counted;
  counted.container = container;
  counted.container_word = container_word;
  counted.loads = dosing::loads(mix, container, parts,
                                noted(session, "negligible-load", "loads", answer).value);
  counted.cap = cap;
  if (!cap) return counted;
  const double step = noted(session, "cap-half-step", "caps", answer).value;
  const double tolerance = noted(session, "dose-tolerance", "caps", answer).value;
  const auto count = [&](quantity::Volume serum, quantity::Volume water) {
    const auto caps = dosing::count_caps(serum, cap, water, step, tolerance);
    return caps ? std::optional(*caps) : std::nullopt;
  };
  if (counted.loads.full > 0) counted.caps = count(counted.loads.serum_full, container);
  if (in_litres(counted.loads.last) > 0.0)
    counted.caps_last = count(counted.loads.serum_last, counted.loads.last);
  return counted;
}

Json loads_json(const CountedLoads& counted) {
  const auto caps = [](const std::optional<dosing::CapCount>& count) {
    return count ? caps_json(*count) : Json(nullptr);
  };
  return {{"loads", rounded(counted.loads.loads, 6)},
          {"full_loads", counted.loads.full},
          {"tank_l", rounded(in_litres(counted.container), 6)},
          {"serum_full_ml", rounded(in_millilitres(counted.loads.serum_full), 6)},
          {"caps", caps(counted.caps)},
          {"last_l", rounded(in_litres(counted.loads.last), 6)},
          {"serum_last_ml", rounded(in_millilitres(counted.loads.serum_last), 6)},
          {"caps_last", caps(counted.caps_last)}};
}

namespace {

std::string load_text(const words::Catalogue& words, const CountedLoads& counted, bool last) {
  const auto& caps = last ? counted.caps_last : counted.caps;
  const quantity::Volume size = last ? counted.loads.last : counted.container;
  const quantity::Volume serum = last ? counted.loads.serum_last : counted.loads.serum_full;
  Values values{{"size", Decimal{in_litres(size), 2}}, {"serum", told_millilitres(serum)}};
  if (!counted.cap) return words.text("dose.load-millilitres", values);
  values.insert_or_assign("cap", Decimal{in_millilitres(*counted.cap), 1});
  if (!caps || !caps->fits) return words.text("dose.load-syringe", values);
  values.insert_or_assign("n", Decimal{caps->caps, 1});
  values.insert_or_assign("given", Decimal{in_millilitres(caps->given), 1});
  values.insert_or_assign("real_parts", Decimal{caps->parts, 0});
  return words.text(std::fabs(caps->off) < 0.005 ? "dose.load-caps" : "dose.load-caps-about",
                    values);
}

}  // namespace

std::string loads_text(const words::Catalogue& words, const CountedLoads& counted) {
  Values values{{"container", words.text("container." + counted.container_word)},
                {"n", counted.loads.full}};
  std::string text;
  if (counted.loads.full > 0) {
    values.insert_or_assign("load", load_text(words, counted, false));
    text = words.text("dose.full-loads", values);
  }
  if (in_litres(counted.loads.last) <= 0.0) return text;
  values.insert_or_assign("load", load_text(words, counted, true));
  return text + (text.empty() ? "" : " ") +
         words.text(text.empty() ? "dose.only-load" : "dose.last-load", values);
}

dosing::SoakTimes soak_times(const Session& session, double hours) {
  const auto value = [&](const char* id) { return session.data.constant(id).value; };
  return dosing::soak_times(
      hours, {value("soak-morning-up-to"), value("soak-morning-in"), value("soak-evening-out")});
}

std::string soak_times_text(const Session& session, double hours) {
  const dosing::SoakTimes times = soak_times(session, hours);
  const auto clock = [](double hour) {
    const long minutes = std::lround(60.0 * hour);
    const std::string rest = std::to_string(minutes % 60);
    return std::to_string(minutes / 60) + (rest.size() < 2 ? ":0" : ":") + rest;
  };
  return session.words.text(times.morning ? "dose.soak-morning" : "dose.soak-evening",
                            {{"in", clock(times.in)}, {"out", clock(times.out)}});
}

void add_cautions(const Session& session, std::initializer_list<const char*> ids, Answer& answer) {
  Json list = Json::array();
  for (const char* id : ids) {
    list.push_back({{"id", id}, {"text", session.words.text(std::string("caution.") + id)}});
    answer.used.note(session.data.cautions().at(id).origin, "caution");
  }
  answer.fields["cautions"] = std::move(list);
}

void note_formula(const char* used_for, Answer& answer) {
  answer.used.note({"computed", "computed-here", ""}, used_for);
}

namespace {

// Publications by author and year, all else by its kind: "common practice; Harris (2001)".
std::string sources_text(const Session& session, const Answer& answer) {
  std::set<std::string> names;
  for (const Json& row : sources_json(session, answer.used)) {
    const std::string kind = session.words.text("sources.kind." + row["kind"].get<std::string>());
    std::string name = row["author"].get<std::string>();
    if (name.empty() && !row["year"].get<std::string>().empty())
      name = row["title"].get<std::string>();
    const std::string year = row["year"].get<std::string>();
    names.insert(
        name.empty()
            ? kind
            : session.words.text(
                  year.empty() ? "sources.short-line-undated" : "sources.short-line",
                  {{"title", name.substr(0, name.find(','))}, {"year", year}, {"kind", kind}}));
  }
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : "; ") + name;
  return session.words.text("sources.short", {{"list", list}});
}

}  // namespace

void add_page(const Session& session, sheet::Page page, Answer& answer) {
  for (const Json& caution : answer.fields["cautions"])
    page.caution(caution["text"].get<std::string>());
  if (!answer.used.rows().empty()) page.text(sources_text(session, answer));
  answer.fields["pages"] = Json::array({sheet::to_json(page)});
}

outcome::Problems renamed(outcome::Problems problems,
                          const std::map<std::string, std::string>& names) {
  for (outcome::Problem& problem : problems) {
    const std::string first = problem.field.substr(0, problem.field.find('/', 1));
    const auto found = names.find(first);
    if (found != names.end()) problem.field = found->second + problem.field.substr(first.size());
  }
  return problems;
}

}  // namespace wheyfield::api
