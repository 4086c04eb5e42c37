// For the scenarios of the season plan: an opened core, and finding things in its plans.
#pragma once

#include <string>

#include <gtest/gtest.h>

#include "calendar/date.h"
#include "support/facade.h"

namespace wheyfield::testing {

class PlanScenario : public ::testing::Test {
 protected:
  Facade facade;
};

inline Json crop_uses(const Json& plan, const std::string& farm, const std::string& crop) {
  Json list = Json::array();
  for (const Json& use : plan["uses"])
    if (use["farm"] == farm && use["crop"] == crop) list.push_back(use);
  return list;
}

// The use of a farm's first field, or null.
inline Json use_of(const Json& plan, const std::string& farm, const std::string& use) {
  for (const Json& one : plan["uses"])
    if (one["farm"] == farm && one["field"] == 1 && one["use"] == use) return one;
  return nullptr;
}

// How wide the use's window is.
inline int days_wide(const Json& use) {
  const auto day = [&](const char* edge) {
    return calendar::parse_date(use["window"][edge].get<std::string>()).value();
  };
  return day("late") - day("early");
}

// The page of the plan, or none.
inline const Json* page(const Json& plan, const std::string& id) {
  for (const Json& one : plan["pages"])
    if (one["id"] == id) return &one;
  return nullptr;
}

}  // namespace wheyfield::testing
