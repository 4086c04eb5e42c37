#include "api/crop_answer.h"
#include "crop/roads.h"

namespace wheyfield::api {
namespace {

using calendar::Date;
using calendar::Window;
using crop::Forecast;
using sheet::Page;
using words::Decimal;

class WindowsPage {
 public:
  explicit WindowsPage(const WorkedWindows& worked)
      : w_(worked), words_(worked.session.words), planting_(worked.question.ask.planting) {}

  Page page(const Json& counting, const reference_data::UsedSources& used) const {
    Page page("windows", t("windows.title", {{"crop", crop_name()}}));
    page.text(started());
    table(page, w_.forecast);
    page.text(road_text(w_.session, w_.forecast));
    if (w_.question.temperatures) page.text(temperatures());
    if (!counting.is_null()) page.text(counted(counting));
    if (w_.forecast.pace != 1.0)
      page.text(t(w_.forecast.pace > 1.0 ? "windows.slower" : "windows.faster",
                  {{"pace", Decimal{w_.forecast.pace, 2}}}));
    for (const Forecast& other : w_.beside) {
      page.heading(t("windows.beside", {{"road", road_name(other)}}));
      table(page, other);
    }
    if (planting_.harvest_after > 0) page.text(t("windows.harvest-counts"));
    const bool calendar_waits = w_.beside.empty() && w_.forecast.road != crop::Road::calendar &&
                                !planting_.crop->stages.empty() && planting_.harvest_after == 0;
    if (calendar_waits) page.text(t("windows.calendar-waits"));
    page.caution(t("windows.limits"));
    add_sources(page, w_.session, used);
    return page;
  }

 private:
  std::string t(const std::string& key, const words::Values& values = {}) const {
    return words_.text(key, values);
  }
  std::string crop_name() const { return t("crop." + planting_.crop->id); }
  std::string road_name(const Forecast& forecast) const {
    return t("forecast.road." + std::string(crop::road_word(forecast.road)));
  }

  // The day of the blossom, for a crop that is dated by it.
  std::optional<Date> blossomed() const {
    return w_.forecast.road == crop::Road::event ? w_.question.ask.seen.fourth : std::nullopt;
  }
  Date start() const { return blossomed().value_or(w_.question.started()); }

  std::string started() const {
    std::string how(crop::start_word(planting_.start));
    if (planting_.crop->established) how = blossomed() ? "blossom" : "standing";
    return t("windows.started." + how, {{"day", words_.long_date(start())}});
  }

  // With the year where it is not that of the start.
  std::string day(Date date) const {
    if (date.year() == start().year()) return words_.date(date);
    return t("windows.day-year", {{"day", date}, {"year", std::to_string(date.year())}});
  }

  void table(Page& page, const Forecast& forecast) const {
    std::vector<std::vector<std::string>> rows;
    const auto row = [&](const std::string& what, const Window& window) {
      rows.push_back({what, day(window.early), day(window.likely), day(window.late)});
    };
    for (const crop::Use& use : forecast.uses) row(t("use." + use.event), use.window);
    if (forecast.harvest) row(t("windows.harvest"), *forecast.harvest);
    page.table({{t("col.look-for")}, {t("col.early")}, {t("col.likely")}, {t("col.late")}},
               std::move(rows));
  }

  std::string counted(const Json& counting) const {
    const words::Values rule{{"rule", counting["text"].get<std::string>()}};
    if (counting["base"].is_null()) return t("windows.counted-by", rule);
    words::Values by_hand = rule;
    by_hand.insert_or_assign("base", Decimal{counting["base"]["celsius"].get<double>(), 1});
    return t("windows.count-by-hand", by_hand);
  }

  std::string temperatures() const {
    const PlaceTemperatures& place = *w_.question.temperatures;
    const words::Values values{
        {"origin", t("temperatures." + std::string(weather::origin_word(place.series.origin)))},
        {"spread", Decimal{place.series.spread, 1, false}}};
    if (w_.forecast.road != crop::Road::degree_days)
      return t("windows.temperatures-unused", values);
    if (!place.read_to || place.series.origin == weather::Origin::readings)
      return t("windows.temperatures", values);
    words::Values read = values;
    read.insert_or_assign("day", *place.read_to);
    return t("windows.temperatures-read", read);
  }

  const WorkedWindows& w_;
  const words::Catalogue& words_;
  const crop::Planting& planting_;
};

}  // namespace

sheet::Page windows_page(const WorkedWindows& worked, const Answer& answer) {
  return WindowsPage(worked).page(answer.fields["counting"], answer.used);
}

std::string road_text(const Session& session, const Forecast& forecast) {
  std::string why = session.words.text("forecast.why." + forecast.why);
  if (forecast.road == crop::Road::calendar) return why;  // the sentence names the road
  const std::string road(crop::road_word(forecast.road));
  return session.words.text("windows.road", {{"road", session.words.text("forecast.road." + road)},
                                             {"why", std::move(why)}});
}

void add_sources(Page& page, const Session& session, const reference_data::UsedSources& used) {
  std::vector<std::string> lines;
  for (const Json& row : sources_json(session, used)) {
    std::string title = row["title"].get<std::string>();
    for (const char* member : {"page", "year"})
      if (const auto text = row[member].get<std::string>(); title.find(text) == std::string::npos)
        title += ", " + text;
    lines.push_back(session.words.text(
        "sources.line",
        {{"title", title},
         {"kind", session.words.text("sources.kind." + row["kind"].get<std::string>())}}));
  }
  page.heading(session.words.text("sources.title"));
  page.list(std::move(lines));
}

}  // namespace wheyfield::api
