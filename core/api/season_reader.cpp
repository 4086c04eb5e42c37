#include "api/season_reader.h"

#include <algorithm>
#include <map>
#include <set>

#include <nlohmann/json.hpp>

#include "api/farm_reader.h"
#include "api/field_reader.h"
#include "api/fields.h"
#include "api/temperature_reader.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::Problems;
using quantity::Volume;
using season::Season;

// Days before the season for which temperatures are still wanted (an earlier first start).
constexpr int days_around = 120;
constexpr std::int64_t most_of_a_preparation_ml = 100'000'000;  // 100 m3, far above any heap

class SeasonReader {
 public:
  SeasonReader(const json& body, const crop::CropTable& crops,
               const reference_data::ReferenceData& data, calendar::Date today)
      : body_(body), crops_(crops), data_(data), units_(data.units()), today_(today) {
    units_.open();
  }

  outcome::Result<ReadSeason> read() {
    problems_ = check_shape(body_, season_fields(), "");
    if (wrong_shape()) return outcome::failure(problems_);
    measures();
    head();
    calendar_days();
    places();
    waters();
    milk();
    containers();
    money();
    FarmReader farms(body_, crops_, data_, units_, today_, problems_);
    farms.read(season_);
    vessels();
    absences();
    preparations();
    Problems remarks;
    std::copy_if(problems_.begin(), problems_.end(), std::back_inserter(remarks),
                 [](const auto& p) { return p.severity != outcome::Severity::error; });
    if (outcome::has_errors(problems_)) return outcome::failure(problems_);
    return ReadSeason{std::move(season_), std::move(preparations_), std::move(remarks),
                      std::move(used_)};
  }

 private:
  bool wrong_shape() const {
    return std::any_of(problems_.begin(), problems_.end(),
                       [](const auto& p) { return p.code == "wrong-shape"; });
  }

  FieldReader reader(const json& object, const std::string& pointer) {
    return FieldReader(object, pointer, units_, problems_);
  }

  const json& object(const char* name) const {
    static const json empty = json::object();
    const auto found = body_.find(name);
    return found == body_.end() ? empty : *found;
  }

  template <class Read>
  void each(const char* name, Read read) {
    const auto found = body_.find(name);
    if (found == body_.end()) return;
    for (std::size_t i = 0; i < found->size(); ++i)
      read(reader((*found)[i], "/" + std::string(name) + "/" + std::to_string(i)));
  }

  // The group's own measures become units: "timad" that was weighed or paced once.
  void measures() {
    each("measures", [&](const FieldReader& r) {
      const auto name = r.text("name");
      const auto is = r.text("is");
      if (!name || !is) return;
      const auto amount = units_.amount(*is);
      if (!amount || !(amount->number > 0.0)) return r.add("measure-unreadable", "is", *is);
      units_.add({*name, {}, amount->unit->dimension, amount->number * amount->unit->factor});
    });
  }

  void head() {
    const FieldReader r = reader(object("season"), "/season");
    season_.name = r.text("name").value_or("");
    season_.currency = r.text("currency").value_or("");
    season_.recipe = r.text("recipe").value_or("");
    season_.strength_parts = r.strength("strength").value_or(500.0);
    season_.by_degree_days = r.text("windows").value_or("calendar") == "degree-days";
    season_.serum_life_days = r.days("serum_life").value_or(1);
    season_.batches_per_spare = r.one_in("spare").value_or(0);
    const auto from = r.date("from"), to = r.date("to"), start = r.date("first_start");
    if (!from || !to || !start) return;
    season_.from = *from;
    season_.to = *to;
    season_.first_start = *start;
    if (*to <= *from || *to - *from > 400)
      r.add("from-after-to", "to", to->iso(), {{"limit", from->iso()}});
    if (*start < *from - days_around || *start > *to)
      r.add("first-start-outside", "first_start", start->iso(),
            {{"from", from->iso()}, {"to", to->iso()}});
  }

  void calendar_days() {
    const FieldReader r = reader(object("meetings"), "/meetings");
    season_.meetings.weekday = r.weekday("day").value_or(calendar::Weekday::monday);
    season_.meetings.none_on = r.dates("none_on");
    season_.market =
        reader(object("market"), "/market").weekday("day").value_or(calendar::Weekday::monday);
  }

  void places() {
    const json& list = body_.contains("places") ? body_["places"] : json::array();
    for (std::size_t i = 0; i < list.size(); ++i) {
      const FieldReader r = reader(list[i], "/places/" + std::to_string(i));
      season::Place place;
      place.name = r.text("name").value_or("");
      const auto altitude = r.length("altitude");
      if (altitude) {
        place.altitude = *altitude;
        if (season_.to > season_.from)
          if (auto read = read_temperatures(list[i], "/places/" + std::to_string(i),
                                            {season_.from - days_around, season_.to + days_around},
                                            data_, problems_, used_))
            place.temperature = std::move(read->series);
      }
      season_.places.push_back(std::move(place));
    }
  }

  void waters() {
    std::set<std::string> told;
    each("water", [&](const FieldReader& r) {
      const auto name = r.text("place");
      const auto place = std::find_if(season_.places.begin(), season_.places.end(),
                                      [&](const auto& p) { return name && p.name == *name; });
      if (place == season_.places.end()) {
        if (name) r.add("place-unknown", "place", *name, {{"known", place_names()}});
        return;
      }
      told.insert(*name);
      place->water = r.text("kind").value_or("");
      place->can_carried = r.money("price_per_can").value_or(quantity::Money());
    });
    for (const season::Place& place : season_.places)
      if (body_.contains("water") && told.count(place.name) == 0)
        problems_.push_back({"water-missing", "/water", place.name, {{"place", place.name}}});
  }

  std::string place_names() const {
    std::string names;
    for (const season::Place& place : season_.places)
      names += (names.empty() ? "" : ", ") + place.name;
    return names;
  }

  void milk() {
    each("milk", [&](const FieldReader& r) {
      season::MilkRule rule;
      rule.from = r.date("from");
      rule.until = r.date("until");
      if (rule.from && rule.until && *rule.until < *rule.from)
        r.add("milk-rule-order", "until", rule.until->iso(), {{"limit", rule.from->iso()}});
      const std::string day = r.text("day").value_or("any");
      rule.meeting_days_only = day == "meeting";
      if (day != "meeting" && day != "any") rule.weekday = r.weekday("day");
      rule.most = r.volume("most").value_or(quantity::Volume());
      rule.price = r.money("price").value_or(quantity::Money());
      season_.milk.push_back(rule);
    });
  }

  void vessels() {
    each("vessels", [&](const FieldReader& r) {
      season::Vessel vessel;
      vessel.name = r.text("name").value_or("");
      vessel.farm = r.text("at").value_or("");
      const auto farm = std::find_if(season_.farms.begin(), season_.farms.end(),
                                     [&](const auto& f) { return f.code == vessel.farm; });
      if (farm == season_.farms.end())
        r.add("farm-unknown", "at", vessel.farm);
      else
        vessel.place = farm->place;
      const auto size = r.volume("size"), line = r.volume("fill_line");
      vessel.size = size.value_or(quantity::Volume());
      vessel.fill_line = line.value_or(quantity::Volume());
      if (size && line && *line > *size)
        r.add("fill-line-above-size", "fill_line", *r.text("fill_line"),
              {{"limit", *r.text("size")}});
      const auto milk = r.text("milk");
      vessel.milk = milk == "raw" ? season::Milk::raw : season::Milk::heated_cooled;
      const std::string kind = r.text("kind").value_or("bucket");
      if (kind == "heap") vessel.kind = recipe::VesselKind::heap;
      if (kind == "apart") vessel.kind = recipe::VesselKind::apart;
      if (vessel.kind == recipe::VesselKind::bucket && !milk)
        r.add("missing-milk", "milk", "", {{"name", "milk"}});
      const auto twin = std::find_if(season_.vessels.begin(), season_.vessels.end(),
                                     [&](const auto& v) { return v.name == vessel.name; });
      if (twin != season_.vessels.end() && !vessel.name.empty())
        r.add("vessel-name-twice", "name", vessel.name,
              {{"first", "/vessels/" + std::to_string(twin - season_.vessels.begin())}});
      season_.vessels.push_back(vessel);
    });
  }

  void containers() {
    each("containers", [&](const FieldReader& r) {
      season_.containers.push_back({r.volume("size").value_or(quantity::Volume()),
                                    r.count("count").value_or(0),
                                    r.count("without_lid").value_or(0)});
    });
  }

  void money() {
    const FieldReader labour = reader(object("labour"), "/labour");
    season_.labour_day = labour.money("day").value_or(quantity::Money());
    season_.labour_hours = labour.number("hours").value_or(8.0);
    if (!(season_.labour_hours > 0.0 && season_.labour_hours <= 24.0))
      labour.add("hours-out-of-range", "hours", *labour.text("hours"));
    hands(labour);
    each("prices", [&](const FieldReader& r) {
      const auto pack = r.pack("pack");
      const auto price = r.money("price");
      if (pack && !(pack->amount > 0.0)) r.add("not-above-zero", "pack", *r.text("pack"));
      season_.prices.push_back({r.text("item").value_or(""), pack ? pack->amount : 1.0,
                                pack ? pack->unit : "", price.value_or(quantity::Money())});
    });
    each("stock", [&](const FieldReader& r) {
      const auto amount = r.pack("amount");
      season::StockItem item{r.text("item").value_or(""), amount ? amount->amount : 0.0,
                             amount ? amount->unit : "", r.date("made_on")};
      if (item.item == "serum" && !item.made_on && item.amount > 0.0)
        r.add("stock-date-missing", "made_on", "");
      season_.stock.push_back(std::move(item));
    });
  }

  // Both or none; a day may have none at all.
  void hands(const FieldReader& labour) {
    const auto meeting = labour.number("meeting_day_hours");
    const auto other = labour.number("other_day_hours");
    for (const auto& [name, hours] :
         {std::pair{"meeting_day_hours", meeting}, std::pair{"other_day_hours", other}})
      if (hours && !(*hours >= 0.0 && *hours <= 1000.0))
        labour.add("day-hours-out-of-range", name, *labour.text(name));
    if (meeting && other) season_.hands = season::Hands{*meeting, *other};
    if (meeting && !other)
      labour.add("missing", "other_day_hours", "", {{"name", "other_day_hours"}});
    if (other && !meeting)
      labour.add("missing", "meeting_day_hours", "", {{"name", "meeting_day_hours"}});
  }

  void preparations() {
    each("preparations", [&](const FieldReader& r) {
      EnteredPreparation entered;
      entered.recipe = r.text("recipe").value_or("");
      entered.keeps_days = r.days("keeps").value_or(1);
      entered.wanted.ml = quantity::whole_millilitres(r.volume("amount").value_or(Volume()));
      const auto by = r.date("by");
      const auto until = r.date("until");
      if (by) entered.wanted.by = *by;
      entered.wanted.until = until.value_or(entered.wanted.by);
      if (by && (*by < season_.from || *by > season_.to))
        r.add("preparation-outside", "by", by->iso(),
              {{"from", season_.from.iso()}, {"to", season_.to.iso()}});
      if (entered.wanted.ml > most_of_a_preparation_ml)
        r.add("preparation-amount", "amount", *r.text("amount"));
      if (by && until && *until - *by > entered.keeps_days)
        r.add("preparation-keeps-short", "keeps", std::to_string(entered.keeps_days),
              {{"days", std::to_string(*until - *by)}});
      if (by && until && *until < *by)
        r.add("preparation-until-before", "until", until->iso(), {{"by", by->iso()}});
      preparations_.push_back(std::move(entered));
    });
  }

  void absences() {
    each("absences", [&](const FieldReader& r) {
      const auto code = r.text("farm");
      const auto on = r.date("on");
      if (!code || !on) return;
      const bool known = std::any_of(season_.farms.begin(), season_.farms.end(),
                                     [&](const auto& f) { return f.code == *code; });
      if (!known) return r.add("farm-unknown", "farm", *code);
      season_.absences.push_back({*code, *on});
    });
  }

  const json& body_;
  const crop::CropTable& crops_;
  const reference_data::ReferenceData& data_;
  quantity::UnitTable units_;
  calendar::Date today_;
  Season season_;
  std::vector<EnteredPreparation> preparations_;
  Problems problems_;
  reference_data::UsedSources used_;
};

}  // namespace

outcome::Result<ReadSeason> read_season(const json& body, const crop::CropTable& crops,
                                        const reference_data::ReferenceData& data,
                                        calendar::Date today) {
  return SeasonReader(body, crops, data, today).read();
}

}  // namespace wheyfield::api
