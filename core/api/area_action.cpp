// The area of a field from tape, corners, GPS points or paces, with the error each brings.
#include <algorithm>
#include <cmath>

#include "api/dose_answer.h"
#include "api/dose_fields.h"
#include "api/field_reader.h"
#include "dosing/land_area.h"
#include "dosing/measured.h"
#include "quantity/number_text.h"

namespace wheyfield::api {
namespace {

using outcome::Problems;
using outcome::Result;
using quantity::Area;
using quantity::in_square_metres;
using quantity::Length;
using quantity::rounded;
using words::Decimal;

const Fields area_fields{"DoseArea",
                         {{"side", Holds::texts, false},
                          {"diagonal", Holds::length, false},
                          {"corner", Holds::texts, false},
                          {"point", Holds::texts, false},
                          {"noise", Holds::length, false},
                          {"paced", Holds::texts, false},
                          {"taped", Holds::length, false},
                          {"paces", Holds::number, false},
                          {"pages", Holds::flag, false}}};

const std::vector<Way> area_ways{{"side", {"side"}, {"diagonal"}},
                                 {"corner", {"corner"}, {}},
                                 {"point", {"point"}, {"noise"}},
                                 {"paced", {"paced"}, {"taped", "paces"}}};

struct Found {
  Area area;
  std::optional<Area> error;
  bool use_tape = false;
};
using FoundArea = Result<Found>;

// "12.5 30", "12.5; 30", "12.5, 30", or "-1.2921,36.8219" as a phone copies it. A single comma
// without a blank could be a decimal mark, unless both numbers have points.
struct Pair {
  double first = 0.0, second = 0.0;
  int most_decimals = 0, fewest_decimals = 0;  // of the two
};
std::optional<Pair> two_numbers(const std::string& text) {
  const std::string bare(quantity::trimmed(text));
  std::size_t at = bare.find(';'), skip = 1;
  if (at == std::string::npos) at = bare.find(", "), skip = 2;
  if (at == std::string::npos) at = bare.find(' '), skip = 1;
  if (at == std::string::npos) {
    at = bare.find(',');
    const bool points =
        at != std::string::npos && bare.find('.') < at && bare.find('.', at) != std::string::npos;
    if (!points) return std::nullopt;
  }
  // Coordinates have three decimals as easily as any other number: no group marks here.
  const auto number = [](std::string_view part) -> std::optional<double> {
    std::string digits(quantity::trimmed(part));
    for (char& c : digits)
      if (c == ',') c = '.';
    const auto read = quantity::parse_number(digits);
    if (read) return *read;
    const auto longer = quantity::parse_number(digits + "0");
    if (read.error()[0].code == "number-ambiguous" && longer) return *longer;
    return std::nullopt;
  };
  const auto first = number(bare.substr(0, at)), second = number(bare.substr(at + skip));
  if (!first || !second) return std::nullopt;
  const auto decimals = [](std::string_view part) {
    const std::string_view digits = quantity::trimmed(part);
    const std::size_t mark = digits.find_first_of(".,");
    return mark == std::string_view::npos ? 0 : static_cast<int>(digits.size() - mark - 1);
  };
  const auto [fewest, most] = std::minmax({decimals(std::string_view(bare).substr(0, at)),
                                           decimals(std::string_view(bare).substr(at + skip))});
  return Pair{*first, *second, most, fewest};
}

std::vector<Pair> read_pairs(const FieldReader& r, const char* name, Problems& problems) {
  std::vector<Pair> pairs;
  const std::vector<std::string> texts = r.texts(name);
  for (std::size_t i = 0; i < texts.size(); ++i)
    if (const auto pair = two_numbers(texts[i]))
      pairs.push_back(*pair);
    else
      problems.push_back({"corner-unreadable", r.at(name) + "/" + std::to_string(i), texts[i], {}});
  return pairs;
}

// The sides as she gave them: "c 50 m" of the geometry is "side 3 (50 m)" of the request.
Problems in_her_order(const words::Catalogue& w, Problems problems,
                      const std::map<std::string, std::string>& names) {
  for (outcome::Problem& problem : problems)
    for (const char* name : {"longest", "second", "third"})
      if (const auto told = problem.details.find(name); told != problem.details.end()) {
        const std::size_t blank = told->second.find(' ');
        const std::string field = names.at("/" + told->second.substr(0, blank));
        const std::string length = told->second.substr(blank + 1);
        told->second =
            field == "/diagonal"
                ? w.text("dose.diagonal", {{"length", length}})
                : w.text("dose.side", {{"n", field.back() - '0' + 1}, {"length", length}});
      }
  return renamed(std::move(problems), names);
}

FoundArea by_sides(const words::Catalogue& w, const FieldReader& r, const std::vector<Length>& s,
                   Answer& answer) {
  const std::map<std::string, std::string> side_names{
      {"/a", "/side/0"},  {"/b", "/side/1"},  {"/c", "/side/2"},  {"/ab", "/side/0"},
      {"/bc", "/side/1"}, {"/cd", "/side/2"}, {"/da", "/side/3"}, {"/ac", "/diagonal"}};
  const auto diagonal = r.length("diagonal");
  if (s.size() == 3 && !diagonal) {
    const auto area = dosing::triangle_area(s[0], s[1], s[2]);
    if (!area) return outcome::failure(in_her_order(w, area.error(), side_names));
    return Found{*area, std::nullopt};
  }
  if (s.size() != 4 || !diagonal)
    return outcome::failure({"sides-three-or-four", "/side", std::to_string(s.size()), {}});
  const auto taped = dosing::taped_area({s[0], s[1], s[2], s[3], *diagonal});
  if (!taped) return outcome::failure(in_her_order(w, taped.error(), side_names));
  answer.fields["mean_sides_m2"] = rounded(in_square_metres(taped->mean_sides), 6);
  answer.fields["mean_sides_over"] = rounded(taped->over, 6);
  return Found{taped->area, std::nullopt};
}

FoundArea by_corners(const std::vector<Pair>& pairs) {
  std::vector<dosing::Corner> corners;
  for (const Pair& pair : pairs) corners.push_back({pair.first, pair.second});
  const auto area = dosing::polygon_area(corners);
  if (!area) return outcome::failure(renamed(area.error(), {{"/corners", "/corner"}}));
  return Found{*area, std::nullopt};
}

// Zeros at the end are often dropped: the corner with the most decimals tells how all were written.
int decimals_of(const std::vector<Pair>& pairs) {
  int most = 0;
  for (const Pair& pair : pairs) most = std::max(most, pair.most_decimals);
  return most;
}

// A zero or two at the end are dropped by chance; more were most likely left out.
Problems much_rougher(const FieldReader& r, const std::vector<Pair>& pairs, double apart) {
  const int most = decimals_of(pairs);
  const std::vector<std::string> texts = r.texts("point");
  Problems bad;
  for (std::size_t i = 0; i < pairs.size(); ++i)
    if (most - pairs[i].fewest_decimals >= apart)
      bad.push_back({"gps-decimals-uneven",
                     r.at("point") + "/" + std::to_string(i),
                     texts[i],
                     {{"point", std::to_string(i + 1)},
                      {"fewest", std::to_string(pairs[i].fewest_decimals)},
                      {"most", std::to_string(most)}}});
  return bad;
}

FoundArea by_points(const Session& session, const FieldReader& r, const std::vector<Pair>& pairs,
                    Answer& answer) {
  std::vector<dosing::GpsPoint> points;
  for (const Pair& pair : pairs) points.push_back({pair.first, pair.second});
  const auto own = r.length("noise");
  const Length noise =
      own ? *own : quantity::metres(noted(session, "gps-sigma", "GPS noise", answer).value);
  const Area below = quantity::hectares(noted(session, "tape-below", "tape or GPS", answer).value);
  const int decimals = decimals_of(pairs);
  const double step = quantity::in_metres(dosing::written_step(decimals));
  Problems bad =
      much_rougher(r, pairs, noted(session, "gps-decimals-apart", "coordinates", answer).value);
  if (step > noted(session, "gps-step-most", "coordinates", answer).value)
    bad.push_back({"gps-decimals-few",
                   "/point",
                   std::to_string(decimals),
                   {{"step", std::to_string(std::lround(step))}}});
  const double written = quantity::in_metres(dosing::written_error(decimals));
  const Length sigma =
      noise > Length() ? quantity::metres(std::hypot(quantity::in_metres(noise), written)) : noise;
  const auto gps = dosing::gps_area(points, sigma, below);
  if (!gps)
    outcome::append(bad,
                    renamed(gps.error(),
                            {{"/points", "/point"}, {"/corners", "/point"}, {"/sigma", "/noise"}}));
  if (!bad.empty()) return outcome::failure(bad);
  answer.fields["noise_m"] = rounded(quantity::in_metres(noise), 6);
  answer.fields["written_step_m"] = rounded(step, 6);
  answer.fields["mean"] = {{"latitude", rounded(gps->mean.latitude, 6)},
                           {"longitude", rounded(gps->mean.longitude, 6)}};
  if (gps->use_tape)
    answer.problems.push_back({"area-use-tape",
                               "/point",
                               std::to_string(std::lround(in_square_metres(gps->area))) + " m2",
                               {{"percent", std::to_string(std::lround(100.0 * gps->part))},
                                {"limit", std::to_string(std::lround(in_square_metres(below)))}},
                               outcome::Severity::notice});
  return Found{gps->area, gps->error, gps->use_tape};
}

FoundArea by_paces(const Session& session, const FieldReader& r, Answer& answer) {
  const auto taped = r.length("taped");
  const auto paces = r.number("paces");
  const std::vector<double> sides = r.numbers("paced");
  if (!taped || !paces || sides.size() != 2)
    return outcome::failure({"paced-two-sides", "/paced", std::to_string(sides.size()), {}});
  const auto pace = dosing::pace_length(*taped, *paces);
  if (!pace) return outcome::failure(pace.error());
  for (std::size_t i = 0; i < sides.size(); ++i)
    if (!(sides[i] > 0.0))
      return outcome::failure(
          {"not-above-zero", "/paced/" + std::to_string(i), r.texts("paced")[i], {}});
  const double part =
      dosing::paced_area_error(noted(session, "pace-error", "paced length", answer).value);
  const Area area = (*pace * sides[0]) * (*pace * sides[1]);
  answer.fields["pace_m"] = rounded(quantity::in_metres(*pace), 6);
  return Found{area, area * part};
}

// "1.29 S": what was swapped or lost its minus sign is seen at once.
std::string bearing(const words::Catalogue& w, double degrees, const char* plus,
                    const char* minus) {
  return w.number({std::fabs(degrees), 2}) + " " + w.text(degrees < 0.0 ? minus : plus);
}

// What goes into the season file is no finer than what is known: 1756 m2 after +-107 m2 is 1800.
double as_known(const Found& found) {
  const double area = in_square_metres(found.area);
  if (!found.error) return rounded(area, 1);
  const double step = std::pow(10.0, std::floor(std::log10(in_square_metres(*found.error))));
  const double told = step >= 1.0 ? step * std::round(area / step) : rounded(area, 1);
  return told > 0.0 ? told : rounded(area, 1);
}

sheet::Page page_of(const Session& session, const std::string& by, const Found& found,
                    const Answer& answer) {
  const words::Catalogue& w = session.words;
  words::Values values{{"area", Decimal{in_square_metres(found.area), 1}},
                       {"ha", Decimal{quantity::in_hectares(found.area), 3}},
                       {"acres", Decimal{quantity::in_acres(found.area), 3}},
                       {"plain", dosing::shown(as_known(found))}};
  sheet::Page page("area", w.text("dose.area-title"));
  page.text(w.text("dose.area", values));
  if (found.error) {
    values.insert_or_assign("error", Decimal{in_square_metres(*found.error), 0});
    values.insert_or_assign("percent", Decimal{100.0 * (*found.error / found.area), 0});
    if (by == "point")
      values.insert_or_assign("noise", Decimal{answer.fields["noise_m"].get<double>(), 1});
    else
      values.insert_or_assign("pace", Decimal{answer.fields["pace_m"].get<double>(), 2});
    page.text(w.text(by == "point" ? "dose.area-gps-error" : "dose.area-pace-error", values));
  }
  if (const Json& mean = answer.fields["mean"]; !mean.is_null())
    page.text(w.text(
        "dose.area-where",
        {{"latitude", bearing(w, mean["latitude"].get<double>(), "bearing.north", "bearing.south")},
         {"longitude",
          bearing(w, mean["longitude"].get<double>(), "bearing.east", "bearing.west")}}));
  if (found.use_tape) page.caution(w.text("dose.area-use-tape"));
  if (const Json& over = answer.fields["mean_sides_over"]; !over.is_null())
    page.text(w.text("dose.area-mean-sides",
                     {{"mean", Decimal{answer.fields["mean_sides_m2"].get<double>(), 1}},
                      {"percent", Decimal{100.0 * over.get<double>(), 1}}}));
  if (!answer.fields["mean_sides_over"].is_null()) page.text(w.text("dose.area-diagonal"));
  page.text(w.text("dose.area-for-season-file", values));
  return page;
}

}  // namespace

const Fields& dose_area_fields() { return area_fields; }

Result<Answer> dose_area(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, area_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  std::vector<std::string> given;
  for (const Way& way : area_ways)
    if (r.given(way.name.c_str())) given.push_back(way.name);
  if (given.size() != 1)
    r.add("area-one-way", given.empty() ? "side" : given[1].c_str(), "");
  else
    hold_to_way(area_ways, given.front(), r);
  const std::vector<Length> sides = r.lengths("side");
  const auto corners = read_pairs(r, "corner", problems);
  const auto points = read_pairs(r, "point", problems);
  r.numbers("paced"), r.length("diagonal"), r.length("noise"), r.length("taped"), r.number("paces");
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const std::string by = given.front();
  answer.fields["by"] = by;
  for (const char* name :
       {"area_m2", "hectares", "acres", "error_m2", "error_part", "use_tape", "mean_sides_m2",
        "mean_sides_over", "pace_m", "noise_m", "written_step_m", "mean"})
    answer.fields[name] = nullptr;
  const FoundArea found = by == "side"     ? by_sides(session.words, r, sides, answer)
                          : by == "corner" ? by_corners(corners)
                          : by == "point"  ? by_points(session, r, points, answer)
                                           : by_paces(session, r, answer);
  if (!found) return outcome::failure(found.error());
  answer.fields["area_m2"] = rounded(in_square_metres(found->area), 6);
  answer.fields["hectares"] = rounded(quantity::in_hectares(found->area), 6);
  answer.fields["acres"] = rounded(quantity::in_acres(found->area), 6);
  answer.fields["use_tape"] = found->use_tape;
  if (found->error) {
    answer.fields["error_m2"] = rounded(in_square_metres(*found->error), 6);
    answer.fields["error_part"] = rounded(*found->error / found->area, 6);
  }
  note_formula(by == "side"     ? "triangles by Heron's formula"
               : by == "corner" ? "polygon by the shoelace formula"
               : by == "point"  ? "metres of WGS-84 and the shoelace formula"
                                : "length of one pace",
               answer);
  add_cautions(session, {}, answer);
  if (r.flag("pages")) add_page(session, page_of(session, by, *found, answer), answer);
  return answer;
}

}  // namespace wheyfield::api
