// Seeded groups for programmes, in the shapes of the practice season: its farms and fields in other
// numbers, areas and days, its two places warmer or cooler, other vessels, milk, weekdays. All
// invented; the same seed is the same group on every machine.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "calendar/date.h"
#include "support/draw.h"

namespace wheyfield::testing {

class InventedGroup {
 public:
  // `practice` is the season body of examples/practice.toml.
  InventedGroup(nlohmann::ordered_json practice, std::uint64_t seed)
      : from_(std::move(practice)), draw_(seed * 2654435761U + 17), seed_(seed) {}

  nlohmann::ordered_json make() {
    season_ = from_;
    season_["season"]["name"] = "invented group " + std::to_string(seed_);
    season_["season"]["first_start"] = moved("2027-02-11", draw_.between(0, 14));
    season_["meetings"]["day"] = weekday();
    season_["absences"] = Json::array();
    sown_later_ = draw_.between(-4, 10);
    places();
    farms();
    vessels();
    milk();
    season_["containers"][0]["count"] = draw_.between(3, 10);
    return season_;
  }

 private:
  using Json = nlohmann::ordered_json;

  static std::string moved(const std::string& day, int days) {
    return (calendar::parse_date(day).value() + days).iso();
  }
  std::string weekday() {
    static constexpr const char* days[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday"};
    return days[draw_.below(5)];
  }
  // "13.5 L" from tenths.
  static std::string litres(int tenths) {
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " L";
  }

  void places() {
    const double warmer = draw_.between(-15, 15) / 10.0;
    for (Json& place : season_["places"])
      for (Json& month : place["months"])
        for (const char* edge : {"min", "max"}) {
          const int tenths =
              static_cast<int>((std::stod(month[edge].get<std::string>()) + warmer) * 10.0 + 0.5);
          month[edge] = std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
        }
  }

  void farms() {
    const Json& shapes = from_["farms"];
    Json farms = Json::array();
    const int farms_of_it = draw_.between(15, 30);
    for (int i = 1; i <= farms_of_it; ++i) {
      Json farm = shapes[draw_.below(shapes.size())];
      farm["code"] = std::to_string(i);
      if (farm.contains("borrows_sprayer_of")) {
        farm.erase("borrows_sprayer_of");
        farm["sprayer"] = "16 L";
      }
      const int later = sown_later_ + draw_.between(0, 6);
      for (Json& field : farm["fields"]) {
        const int hundredths = draw_.between(10, 150);
        field["area"] = std::to_string(hundredths / 100) + "." +
                        std::to_string(100 + hundredths % 100).substr(1) + " acre";
        for (const char* day : {"sown_on", "nursery_on"})
          if (field.contains(day)) field[day] = moved(field[day].get<std::string>(), later);
      }
      farms.push_back(std::move(farm));
    }
    season_["farms"] = std::move(farms);
  }

  void vessels() {
    Json vessels = Json::array();
    const auto add = [&](int size, int low, int high) {
      vessels.push_back(
          {{"name", "V" + std::to_string(vessels.size() + 1)},
           {"at", std::to_string(draw_.between(1, static_cast<int>(season_["farms"].size())))},
           {"size", litres(size * 10)},
           {"fill_line", litres(draw_.between(low, high))},
           {"milk", draw_.below(2) == 0 ? "raw" : "heated"}});
    };
    for (int n = draw_.between(1, 3); n > 0; --n) add(20, 120, 140);
    for (int n = draw_.between(0, 2); n > 0; --n) add(10, 60, 70);
    season_["vessels"] = std::move(vessels);
  }

  void milk() {
    Json rules = Json::array();
    const auto add = [&](const std::string& day, int most, int price) {
      rules.push_back(
          {{"day", day}, {"most", litres(most * 10)}, {"price", std::to_string(price)}});
    };
    add("meeting", draw_.between(4, 14), draw_.between(38, 55));
    if (draw_.below(3) != 0) add(weekday(), draw_.between(4, 14), draw_.between(34, 50));
    season_["milk"] = std::move(rules);
  }

  nlohmann::ordered_json from_;
  Draw draw_;
  std::uint64_t seed_;
  int sown_later_ = 0;
  nlohmann::ordered_json season_;
};

inline nlohmann::ordered_json invented_group(const nlohmann::ordered_json& practice,
                                             std::uint64_t seed) {
  return InventedGroup(practice, seed).make();
}

}  // namespace wheyfield::testing
