// A bucket as a measure: depths for volumes, the dip stick, and what equal-depth marks really are.
#include <cmath>

#include "api/dose_answer.h"
#include "api/dose_fields.h"
#include "api/field_reader.h"
#include "dosing/bucket.h"
#include "dosing/measured.h"

namespace wheyfield::api {
namespace {

using dosing::Frustum;
using dosing::PourScale;
using outcome::Problems;
using outcome::Result;
using quantity::in_litres;
using quantity::Length;
using quantity::rounded;
using quantity::Volume;
using words::Decimal;

const Fields bucket_fields{"DoseBucket",
                           {{"bottom", Holds::length, false},
                            {"top", Holds::length, false},
                            {"height", Holds::length, false},
                            {"wider_below", Holds::flag, false},
                            {"pour", Holds::texts, false},
                            {"volume", Holds::texts, false},
                            {"depth", Holds::texts, false},
                            {"step", Holds::volume, false},
                            {"mark", Holds::length, false},
                            {"parts", Holds::number, false},
                            {"pages", Holds::flag, false}}};

constexpr int slices = 10;

double in_cm(Length v) { return 100.0 * quantity::in_metres(v); }

// "4 L = 7.6 cm": poured so far, and how deep it stands.
std::vector<dosing::Pour> read_pours(const FieldReader& r, const quantity::UnitTable& units,
                                     Problems& problems) {
  std::vector<dosing::Pour> pours;
  const std::vector<std::string> texts = r.texts("pour");
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const std::size_t equals = texts[i].find('=');
    const auto total = units.volume(texts[i].substr(0, equals));
    const auto depth =
        units.length(equals == std::string::npos ? std::string() : texts[i].substr(equals + 1));
    if (total && depth)
      pours.push_back({*total, *depth});
    else
      problems.push_back({"pour-unreadable", r.at("pour") + "/" + std::to_string(i), texts[i], {}});
  }
  return pours;
}

// About twenty to fifty marks when she names no step: whole, tenth or ten litres.
Volume usual_step(Volume full) {
  double step = 0.1;
  while (in_litres(full) / step > 50.0) step *= 10.0;
  return quantity::litres(step);
}

// Inside measures and pours as deep as no bucket is: most likely in another unit.
void judge_sizes(const Session& session, const FieldReader& r,
                 const std::vector<dosing::Pour>& pours, Problems& problems) {
  const auto& width = session.data.constant("bucket-width-limits");
  const auto& depth = session.data.constant("bucket-depth-limits");
  for (const char* name : {"bottom", "top", "height"}) {
    const bool deep = std::string_view(name) == "height";
    if (const auto length = r.length(name); length && *length > Length())
      r.refuse_outside(deep ? depth : width,
                       deep ? "bucket-depth-out-of-range" : "bucket-width-out-of-range", name,
                       in_cm(*length));
  }
  for (std::size_t i = 0; i < pours.size(); ++i)
    if (in_cm(pours[i].depth) > depth.high)
      problems.push_back(
          {"bucket-depth-out-of-range",
           r.at("pour") + "/" + std::to_string(i),
           dosing::shown(in_cm(pours[i].depth)) + " cm",
           {{"low", dosing::shown(depth.low)}, {"high", dosing::shown(depth.high)}}});
}

struct AskedBucket {
  std::vector<Volume> volumes;
  std::vector<Length> depths;
  std::optional<Volume> step;
};

// Depths, volumes and the dip stick of either kind of bucket.
template <class Scale>
Problems use_scale(const Scale& scale, const AskedBucket& a, Answer& answer) {
  Problems bad;
  Json rows = Json::array(), stick = Json::array();
  const auto row = [](Volume volume, Length depth) {
    return Json{{"litres", rounded(in_litres(volume), 6)}, {"depth_cm", rounded(in_cm(depth), 6)}};
  };
  for (std::size_t i = 0; i < a.volumes.size(); ++i) {
    const auto depth = dosing::depth_for(scale, a.volumes[i]);
    if (depth)
      rows.push_back(row(a.volumes[i], *depth));
    else
      outcome::append(bad, renamed(depth.error(), {{"/volume", "/volume/" + std::to_string(i)}}));
  }
  for (std::size_t i = 0; i < a.depths.size(); ++i) {
    const bool inside = a.depths[i] > Length() && a.depths[i] / scale.full_depth() <= 1.0 + 1e-12;
    if (inside)
      rows.push_back(row(scale.volume(a.depths[i]), a.depths[i]));
    else
      bad.push_back({"depth-outside-bucket",
                     "/depth/" + std::to_string(i),
                     dosing::shown(in_cm(a.depths[i])) + " cm",
                     {{"full", dosing::shown(rounded(in_cm(scale.full_depth()), 2))}}});
  }
  const auto marks = dosing::dip_stick(scale, a.step.value_or(usual_step(scale.full())));
  if (marks)
    for (const dosing::DipMark& mark : *marks) stick.push_back(row(mark.volume, mark.depth));
  else
    outcome::append(bad, marks.error());
  answer.fields["full_l"] = rounded(in_litres(scale.full()), 6);
  answer.fields["full_depth_cm"] = rounded(in_cm(scale.full_depth()), 6);
  answer.fields["rows"] = std::move(rows);
  answer.fields["dip_stick"] = std::move(stick);
  return bad;
}

// How far equal slices are off, and "one mark and n marks" where a mark is given.
template <class Scale>
Problems judge_marks(const Session& session, const FieldReader& r, const Scale& bucket,
                     Answer& answer) {
  const dosing::EqualSlices ten = dosing::equal_slices(bucket, slices);
  answer.fields["equal_slices"] = {{"n", slices},
                                   {"bottom_off", rounded(ten.bottom_off, 6)},
                                   {"top_off", rounded(ten.top_off, 6)}};
  const auto mark = r.length("mark");
  const auto parts = r.count("parts");
  if (!mark || !parts) return {};
  const double error = noted(session, "depth-reading-error", "depth read", answer).value / 1000.0;
  const double tolerance = noted(session, "equal-depth-tolerance", "equal marks", answer).value;
  const auto marks =
      dosing::equal_depth_marks(bucket, *mark, *parts, quantity::metres(error), tolerance);
  if (!marks) return marks.error();
  answer.fields["equal_marks"] = {{"mark_cm", rounded(in_cm(*mark), 6)},
                                  {"n", *parts},
                                  {"small_first", {{"parts", rounded(marks->parts, 6)}}},
                                  {"small_first_off", rounded(marks->off, 6)},
                                  {"small_last", {{"parts", rounded(marks->parts_last, 6)}}},
                                  {"small_last_off", rounded(marks->off_last, 6)},
                                  {"reading", rounded(marks->reading, 6)},
                                  {"use_bottle", marks->use_bottle}};
  return {};
}

Problems by_measures(const Session& session, const FieldReader& r, const AskedBucket& a,
                     Answer& answer) {
  const auto bottom = r.length("bottom"), top = r.length("top"), height = r.length("height");
  if (!bottom || !top || !height) return {};
  const auto bucket = Frustum::measured(*bottom, *top, *height, r.flag("wider_below"));
  if (!bucket) return renamed(bucket.error(), {{"/depth", "/height"}});
  Problems bad = use_scale(*bucket, a, answer);
  outcome::append(bad, judge_marks(session, r, *bucket, answer));
  return bad;
}

Problems by_pours(const Session& session, const FieldReader& r,
                  const std::vector<dosing::Pour>& pours, const AskedBucket& a, Answer& answer) {
  const auto scale = PourScale::fitted(pours);
  if (!scale) return renamed(scale.error(), {{"/pours", "/pour"}});
  const double advised = noted(session, "pours-advised", "pours", answer).value;
  outcome::append(answer.problems,
                  renamed(dosing::judge_pours(pours.size(), static_cast<std::size_t>(advised)),
                          {{"/pours", "/pour"}}));
  answer.fields["fit"] = {{"kind", scale->quadratic() ? "quadratic" : "straight-lines"},
                          {"worst", rounded(scale->worst(), 6)},
                          {"worst_pour", scale->worst_pour() + 1}};
  Problems bad = use_scale(*scale, a, answer);
  outcome::append(bad, judge_marks(session, r, *scale, answer));
  if (rounded(scale->worst(), 9) <= noted(session, "pour-worst-above", "pours", answer).value)
    return bad;
  for (const char* name : {"rows", "dip_stick", "equal_slices", "equal_marks"})
    answer.fields[name] = nullptr;
  answer.problems.push_back({"pours-off",
                             "/pour/" + std::to_string(scale->worst_pour()),
                             r.texts("pour")[scale->worst_pour()],
                             {{"pour", std::to_string(scale->worst_pour() + 1)},
                              {"percent", std::to_string(std::lround(100.0 * scale->worst()))}},
                             outcome::Severity::question});
  return bad;
}

std::vector<std::vector<std::string>> rows_of(const words::Catalogue& w, const Json& rows) {
  std::vector<std::vector<std::string>> out;
  for (const Json& row : rows)
    out.push_back({w.number({row["litres"].get<double>(), 2, true}),
                   w.number({row["depth_cm"].get<double>(), 1, false})});
  return out;
}

sheet::Page page_of(const Session& session, const Answer& answer) {
  const words::Catalogue& w = session.words;
  const auto percent = [](const Json& part, int places = 1) {
    return Decimal{100.0 * std::fabs(part.get<double>()), places};
  };
  const std::vector<sheet::Column> columns{{w.text("col.litres"), true},
                                           {w.text("col.depth-cm"), true}};
  sheet::Page page("bucket", w.text("dose.bucket-title"));
  page.text(w.text(answer.fields["fit"].is_null() ? "dose.bucket-full" : "dose.bucket-poured",
                   {{"full", Decimal{answer.fields["full_l"].get<double>(), 1}},
                    {"depth", Decimal{answer.fields["full_depth_cm"].get<double>(), 1}}}));
  if (const Json& fit = answer.fields["fit"]; !fit.is_null())
    page.text(w.text("dose.bucket-fit",
                     {{"worst", percent(fit["worst"])}, {"pour", fit["worst_pour"].get<int>()}}));
  if (answer.fields["dip_stick"].is_null()) {
    page.caution(w.text("dose.bucket-no-stick"));
    return page;
  }
  if (!answer.fields["rows"].empty()) page.heading(w.text("dose.bucket-asked"));
  page.table(columns, rows_of(w, answer.fields["rows"]));
  page.heading(w.text("dose.dip-stick"));
  page.table(columns, rows_of(w, answer.fields["dip_stick"]));
  if (const Json& ten = answer.fields["equal_slices"]; !ten.is_null()) {
    page.heading(w.text("dose.equal-marks-title"));
    const double bottom = ten["bottom_off"].get<double>(), top = ten["top_off"].get<double>();
    const auto level = [](double off) { return std::fabs(off) <= 5e-4; };
    page.text(w.text(level(bottom) && level(top) ? "dose.equal-slices-none"
                     : bottom < 0.0 && top > 0.0 ? "dose.equal-slices"
                     : bottom > 0.0 && top < 0.0 ? "dose.equal-slices-below"
                                                 : "dose.equal-slices-other",
                     {{"n", ten["n"].get<int>()},
                      {"bottom", percent(ten["bottom_off"])},
                      {"top", percent(ten["top_off"])},
                      {"bottom_share", Decimal{100.0 + 100.0 * bottom, 1}},
                      {"top_share", Decimal{100.0 + 100.0 * top, 1}}}));
  }
  if (const Json& marks = answer.fields["equal_marks"]; !marks.is_null()) {
    page.text(w.text("dose.equal-marks",
                     {{"n", marks["n"].get<int>()},
                      {"mark", Decimal{marks["mark_cm"].get<double>(), 1}},
                      {"parts", Decimal{marks["small_first"]["parts"].get<double>(), 2}},
                      {"parts_last", Decimal{marks["small_last"]["parts"].get<double>(), 2}},
                      {"reading", percent(marks["reading"], 0)}}));
    if (marks["use_bottle"].get<bool>()) page.caution(w.text("dose.use-bottle"));
  } else {
    page.text(w.text("dose.use-bottle"));
  }
  return page;
}

}  // namespace

const Fields& dose_bucket_fields() { return bucket_fields; }

Result<Answer> dose_bucket(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, bucket_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const std::vector<dosing::Pour> pours = read_pours(r, session.data.units(), problems);
  const bool poured = r.given("pour");
  const bool measured = r.given("bottom") || r.given("top") || r.given("height");
  if (poured == measured) r.add("bucket-measures-or-pours", "bottom", "");
  if (measured && !poured)
    for (const char* name : {"bottom", "top", "height"}) r.want(name);
  if (poured && r.given("wider_below"))
    r.add("not-of-this-way", "wider_below", "",
          {{"option", "wider_below"}, {"way", "pour"}, {"ways", "bottom, top, height"}});
  if (r.given("mark") || r.given("parts")) {
    r.want("mark"), r.want("parts");
  }
  judge_sizes(session, r, pours, problems);
  const AskedBucket a{r.volumes("volume"), r.lengths("depth"), r.volume("step")};
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  for (const char* name :
       {"full_l", "full_depth_cm", "fit", "rows", "dip_stick", "equal_slices", "equal_marks"})
    answer.fields[name] = nullptr;
  outcome::append(problems, poured ? by_pours(session, r, pours, a, answer)
                                   : by_measures(session, r, a, answer));
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  note_formula(poured ? "scale through the pours" : "tapered bucket", answer);
  add_cautions(session, {"open-bucket-child", "clean-vessels"}, answer);
  if (r.flag("pages")) add_page(session, page_of(session, answer), answer);
  return answer;
}

}  // namespace wheyfield::api
