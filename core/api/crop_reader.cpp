#include "api/crop_reader.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "api/farm_reader.h"
#include "api/field_reader.h"
#include "api/fields.h"

namespace wheyfield::api {
namespace {

using calendar::Date;
using nlohmann::json;
using outcome::Problems;
using outcome::Severity;

// All that a count of days may reach, and a month more.
constexpr int days_ahead = 730;

const Fields seen_fields{"SeenEvent", {{"what", Holds::text, true}, {"on", Holds::date, true}}};
const Fields windows_fields{"CropWindows",
                            {{"crop", Holds::text, true},
                             {"sowing", Holds::choice, false, "direct|nursery|tuber|cutting"},
                             {"sown_on", Holds::date, false},
                             {"nursery_on", Holds::date, false},
                             {"seed", Holds::choice, false, "own|bought|dressed"},
                             {"harvest_after", Holds::days, false},
                             {"own_count", Holds::days, false},
                             {"seen", Holds::list, false, "", &seen_fields},
                             {"readings", Holds::list, false, "", &reading_fields()},
                             {"months", Holds::list, false, "", &month_fields()},
                             {"station", Holds::text, false},
                             {"altitude", Holds::length, false},
                             {"pages", Holds::flag, false}}};

class CropReader {
 public:
  CropReader(const Session& session, const json& body, reference_data::UsedSources& used)
      : session_(session),
        body_(body),
        used_(used),
        top_(body, "", session.data.units(), problems_) {}

  outcome::Result<CropQuestion> read() {
    problems_ = check_shape(body_, windows_fields, "");
    if (std::any_of(problems_.begin(), problems_.end(),
                    [](const auto& p) { return p.code == "wrong-shape"; }))
      return outcome::failure(problems_);
    planting();
    seen();
    if (!given("sown_on") && question_.ask.seen.fourth)
      question_.ask.planting.set_out = *question_.ask.seen.fourth;
    temperatures();
    if (outcome::has_errors(problems_)) return outcome::failure(problems_);
    question_.remarks = std::move(problems_);
    return std::move(question_);
  }

 private:
  const crop::Crop* crop() const { return question_.ask.planting.crop; }
  bool given(const char* name) const { return top_.text(name).has_value(); }

  void planting() {
    crop::Planting& p = question_.ask.planting;
    p.start = crop::parse_start(top_.text("sowing").value_or("")).value_or(crop::Start::direct);
    p.seed = crop::parse_seed(top_.text("seed").value_or("")).value_or(crop::Seed::dressed);
    const auto set_out = top_.date("sown_on");
    if (set_out) p.set_out = *set_out;
    p.nursery = top_.date("nursery_on");
    if (p.nursery && set_out && *p.nursery >= *set_out)
      top_.add("nursery-date-late", "nursery_on", p.nursery->iso(), {{"limit", set_out->iso()}});
    p.harvest_after = top_.days("harvest_after").value_or(0);
    question_.ask.own_days_to_fourth = top_.days("own_count");
    find_crop();
    if (!crop()) return;
    if (!given("sowing") && !crop()->established)
      top_.add("missing-sowing", "sowing", "", {{"name", "sowing"}});
    if (!given("sown_on") && (!crop()->after_fourth || question_.ask.own_days_to_fourth))
      top_.add("missing-sown_on", "sown_on", "", {{"name", "sown_on"}});
    const bool sown = p.start == crop::Start::direct || p.start == crop::Start::nursery;
    if (sown && !crop()->established && !given("seed"))
      top_.add("seed-not-said", "seed", "", {}, Severity::notice);
    if (ask_about_start(top_, *crop())) used_.note(crop()->starts_origin, "starts." + crop()->id);
    length_question();
  }

  void find_crop() {
    const auto id = top_.text("crop");
    if (!id) return;
    question_.ask.planting.crop = session_.crops.find_any(*id);
    if (crop()) return;
    std::vector<std::string> known = session_.crops.ids();
    for (const crop::Crop& crop : session_.crops.rowless()) known.push_back(crop.id);
    const std::string near = nearest(*id, known);
    if (!near.empty()) return top_.add("crop-unknown", "crop", *id, {{"suggestion", near}});
    top_.add(
        "crop-not-listed", "crop", *id,
        crop::worked_scaling(session_.crops.crops().front(), question_.ask.planting.harvest_after));
  }

  // Half the shortest to twice the longest published length is believed without asking.
  void length_question() {
    const int days = question_.ask.planting.harvest_after;
    if (crop()->stages.empty() || days == 0) return;
    const reference_data::Sourced& limits = session_.data.constant("harvest-length-limits");
    const crop::Lengths usual = crop::usual_lengths(*crop(), limits);
    if (days >= usual.least && days <= usual.most) return;
    used_.note(limits.origin, "harvest-length-limits");
    ask_about_length(top_, *crop(), usual);
  }

  template <class Read>
  void each(const char* name, Read read) {
    const auto found = body_.find(name);
    if (found == body_.end()) return;
    for (std::size_t i = 0; i < found->size(); ++i)
      read(FieldReader((*found)[i], "/" + std::string(name) + "/" + std::to_string(i),
                       session_.data.units(), problems_));
  }

  void seen() {
    each("seen", [&](const FieldReader& r) {
      const auto what = r.text("what");
      const auto on = r.date("on");
      if (!what || !on || !crop()) return;
      const std::string event = event_named(*what);
      if (event.empty()) return seen_unknown(r, *what);
      std::optional<Date>& day = day_of(event);
      if (day) return r.add("seen-twice", "what", *what);
      day = on;
      ask_about_day_to_come(r, "on", on, session_.today);
      question_.seen_at["/seen/" + event] = r.at("on");
    });
  }

  // "planted", "emerged", "fourth" or "fifth"; "" when the crop has no such event.
  std::string event_named(const std::string& what) const {
    const bool flower = crop()->fourth == "flowering" && what == "first-flower";
    const bool blossom = crop()->after_fourth && what == "blossom";
    if (what == crop()->fourth || flower || blossom) return "fourth";
    if (what == "first-fruit" || what == "fifth") return crop()->has_fifth ? "fifth" : "";
    return what == "planted" || what == "emerged" || what == "fourth" ? what : "";
  }

  void seen_unknown(const FieldReader& r, const std::string& what) const {
    std::vector<std::string> known{"planted", "emerged", crop()->fourth};
    if (crop()->fourth == "flowering") known.back() = "first-flower";
    if (crop()->after_fourth) known = {"blossom"};
    if (crop()->has_fifth) known.emplace_back("first-fruit");
    r.add("seen-unknown", "what", what,
          {{"known", joined(known)}, {"suggestion", nearest(what, known)}});
  }

  std::optional<Date>& day_of(const std::string& event) {
    crop::Seen& seen = question_.ask.seen;
    if (event == "planted") return seen.planted;
    if (event == "emerged") return seen.emerged;
    return event == "fourth" ? seen.fourth : seen.fifth;
  }

  void temperatures() {
    const crop::FieldAsk& ask = question_.ask;
    Date from = given("sown_on") ? ask.planting.set_out : session_.today;
    for (const auto& day : {ask.seen.planted, ask.seen.fourth})
      if (day) from = std::min(from, *day);
    question_.temperatures =
        read_temperatures(body_, "", {from, from + days_ahead}, session_.data, problems_, used_);
  }

  const Session& session_;
  const json& body_;
  reference_data::UsedSources& used_;
  Problems problems_;
  CropQuestion question_;
  FieldReader top_;
};

}  // namespace

Problems CropQuestion::as_asked(Problems problems) const {
  static const std::map<std::string, std::string> names{
      {"/planting/crop", "/crop"},
      {"/planting/harvest_after", "/harvest_after"},
      {"/planting/nursery", "/nursery_on"},
      {"/own_days_to_fourth", "/own_count"},
      {"/seen/fourth", "/seen"}};
  for (auto& problem : problems) {
    const auto seen = seen_at.find(problem.field);
    const auto name = names.find(problem.field);
    if (seen != seen_at.end())
      problem.field = seen->second;
    else if (name != names.end())
      problem.field = name->second;
  }
  return problems;
}

outcome::Result<CropQuestion> read_crop_question(const Session& session, const json& body,
                                                 reference_data::UsedSources& used) {
  return CropReader(session, body, used).read();
}

}  // namespace wheyfield::api
