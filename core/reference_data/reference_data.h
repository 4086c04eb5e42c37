// The data bundle, read once at `open`: sources, constants, units, cautions, equipment.
// Tables that belong to one room (crops and uses, recipes) are handed on as sections and read
// there.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "outcome/result.h"
#include "quantity/units.h"
#include "reference_data/sourced.h"

namespace wheyfield::reference_data {

struct Source {
  std::string id;
  std::string title;
  std::string author;
  std::string year;
  std::string grade;  // A, B, C, or - for no publication
};

// A warning shown where the act happens; its sentence is `caution.<id>` in the word catalogue.
struct Caution {
  std::string id;
  Origin origin;
};

// A thing to buy that is no ingredient.
struct Equipment {
  std::string item;
  double quantity;  // [pieces] or [m], see unit
  std::string unit;
  std::string per;  // batch, vessel, season, can-without-lid
  Origin origin;
};

class ReferenceData {
 public:
  ReferenceData();
  ReferenceData(ReferenceData&&) noexcept;
  ReferenceData& operator=(ReferenceData&&) noexcept;
  ~ReferenceData();

  // Errors: data-unreadable, data-missing, data-range; all of them are collected.
  static outcome::Result<ReferenceData> parse(std::string_view json);

  const quantity::UnitTable& units() const { return units_; }
  const std::map<std::string, Source>& sources() const { return sources_; }
  const std::map<std::string, Caution>& cautions() const { return cautions_; }
  const std::vector<Equipment>& equipment() const { return equipment_; }
  // Precondition: the id stands in data/constants.toml (checked at parse for the ids of
  // `required_constants`).
  const Sourced& constant(std::string_view id) const;
  static const std::vector<std::string>& required_constants();
  // An array of the bundle ("crops", "uses", "recipes"); an empty array when absent.
  const nlohmann::json& section(const char* name) const;

 private:
  std::map<std::string, Source> sources_;
  std::map<std::string, Sourced, std::less<>> constants_;
  std::map<std::string, Caution> cautions_;
  std::vector<Equipment> equipment_;
  quantity::UnitTable units_;
  std::unique_ptr<nlohmann::json> bundle_;
};

}  // namespace wheyfield::reference_data
