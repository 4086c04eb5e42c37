#include "api/temperature_reader.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "api/field_reader.h"
#include "api/fields.h"
#include "weather/temperature.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::Problems;
using weather::Station;

class TemperatureReader {
 public:
  TemperatureReader(const json& body, const std::string& pointer,
                    const reference_data::ReferenceData& data, Problems& problems)
      : body_(body),
        pointer_(pointer),
        data_(data),
        problems_(problems),
        top_(body, pointer, data.units(), problems) {}

  weather::Known read(const std::vector<Station>& stations) {
    weather::Known known;
    each("readings", [&](const FieldReader& r) {
      const auto day = r.date("date");
      const auto min = r.number("min"), max = r.number("max");
      if (day && min && max) known.readings.push_back({*day, *min, *max});
    });
    each("months", [&](const FieldReader& r) {
      const auto month = r.month("month");
      const auto min = r.number("min"), max = r.number("max");
      if (month && min && max) known.months.push_back({month->first, month->second, *min, *max});
    });
    known.altitude = top_.length("altitude");
    known.station = station(stations);
    return known;
  }

  // A row is wrong, told here or by `check_shape` before.
  bool wrong_rows() const {
    return std::any_of(problems_.begin(), problems_.end(), [&](const auto& p) {
      return p.field.rfind(pointer_ + "/readings", 0) == 0 ||
             p.field.rfind(pointer_ + "/months", 0) == 0;
    });
  }

 private:
  template <class Read>
  void each(const char* name, Read read) {
    const auto found = body_.find(name);
    if (found == body_.end()) return;
    if (found->empty()) top_.add(std::string(name) + "-missing", name, "");
    for (std::size_t i = 0; i < found->size(); ++i)
      read(FieldReader((*found)[i], top_.at(name) + "/" + std::to_string(i), data_.units(),
                       problems_));
  }

  const Station* station(const std::vector<Station>& stations) const {
    const auto id = top_.text("station");
    if (!id) return nullptr;
    const Station* found = weather::find_station(stations, *id);
    if (found) return found;
    std::vector<std::string> ids;
    std::string known;
    for (const Station& one : stations) {
      ids.push_back(one.id);
      known += (known.empty() ? "" : ", ") + one.id;
    }
    top_.add("station-unknown", "station", *id,
             {{"known", known}, {"suggestion", nearest(*id, ids)}});
    return nullptr;
  }

  const json& body_;
  const std::string& pointer_;
  const reference_data::ReferenceData& data_;
  Problems& problems_;
  FieldReader top_;
};

// The core speaks of a reading's day, the body of its date.
Problems as_written(Problems problems) {
  for (auto& problem : problems)
    if (const auto at = problem.field.rfind("/day"); at != std::string::npos)
      problem.field.replace(at, 4, "/date");
  return problems;
}

}  // namespace

std::optional<PlaceTemperatures> read_temperatures(const json& body, const std::string& pointer,
                                                   DaySpan days,
                                                   const reference_data::ReferenceData& data,
                                                   Problems& problems,
                                                   reference_data::UsedSources& used) {
  const std::size_t before = problems.size();
  TemperatureReader reader(body, pointer, data, problems);
  const auto stations = take_or(weather::read_stations(data), std::vector<Station>{}, problems);
  const weather::Known known = reader.read(stations);
  const bool nothing =
      known.readings.empty() && known.months.empty() && !known.station && !known.altitude;
  if (nothing || problems.size() > before || reader.wrong_rows()) return std::nullopt;
  auto series = weather::best_series(known, days.from, days.to, data, used);
  if (series) {
    PlaceTemperatures place{std::move(*series), std::nullopt};
    for (const weather::Reading& r : known.readings)
      place.read_to = std::max(place.read_to.value_or(r.day), r.day);
    return place;
  }
  outcome::append(problems, outcome::under(pointer, as_written(std::move(series.error()))));
  return std::nullopt;
}

}  // namespace wheyfield::api
