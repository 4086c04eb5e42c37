// Reads the farms and fields of a season body.
#pragma once

#include <map>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "api/field_reader.h"
#include "crop/crop_table.h"
#include "crop/use_windows.h"
#include "reference_data/reference_data.h"
#include "season/season.h"

namespace wheyfield::api {

// The question harvest-far-from-table at `harvest_after`, which must stand there.
void ask_about_length(const FieldReader& r, const crop::Crop& crop, const crop::Lengths& usual);

// Adds the question sowing-unusual at `sowing` when the crop is not usually started so; was it?
bool ask_about_start(const FieldReader& r, const crop::Crop& crop);

// Adds the question seen-after-today at `name` when what was seen lies after today.
void ask_about_day_to_come(const FieldReader& r, const char* name,
                           const std::optional<calendar::Date>& seen, calendar::Date today);

class FarmReader {
 public:
  FarmReader(const nlohmann::json& body, const crop::CropTable& crops,
             const reference_data::ReferenceData& data, const quantity::UnitTable& units,
             calendar::Date today, outcome::Problems& problems)
      : body_(body),
        crops_(crops),
        data_(data),
        units_(units),
        today_(today),
        problems_(problems) {}

  // Appends to season.farms; needs season.places.
  void read(season::Season& season);

 private:
  season::Farm farm(const nlohmann::json& object, const std::string& pointer,
                    const season::Season& season);
  season::Field field(const nlohmann::json& object, const std::string& pointer,
                      const season::Season& season);
  void seen(const FieldReader& r, season::Field& field);
  void sown_within(const FieldReader& r, const crop::Planting& planting,
                   const season::Season& season);
  void harvest_questions(const FieldReader& r, const crop::Planting& planting);
  void planting(const FieldReader& r, crop::Planting& planting);
  void round_stem(const FieldReader& r, season::Field& field);
  // A volume that is read, and refused with `code` outside the limits of a constant in litres.
  std::optional<quantity::Volume> litres_within(const FieldReader& r, const char* name,
                                                const char* limits, const char* code) const;
  void spacing_within(const FieldReader& r,
                      std::pair<quantity::Length, quantity::Length> spacing) const;
  void area_questions(const FieldReader& r, quantity::Area area);
  void odd_units();
  void borrowed_sprayers(season::Season& season);

  const nlohmann::json& body_;
  const crop::CropTable& crops_;
  const reference_data::ReferenceData& data_;
  const quantity::UnitTable& units_;
  calendar::Date today_;
  outcome::Problems& problems_;
  // Unit of area as written -> the first field pointer and text, and how many.
  struct Written {
    std::string pointer;
    std::string text;
    int count = 0;
  };
  std::map<std::string, Written> area_units_;
};

}  // namespace wheyfield::api
