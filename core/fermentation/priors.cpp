#include "fermentation/priors.h"

#include <cmath>
#include <string>
#include <vector>

#include "fermentation/normal.h"

namespace wheyfield::fermentation {
namespace {

Population population(const ParameterTable& table, const std::string& kind) {
  const auto value = [&](const char* name) { return table.row(kind + name).value; };
  return {value("-rate"),
          {value("-min"), value("-opt"), value("-max")},
          {value("-ph-lowest"), value("-ph-opt"), value("-ph-highest")},
          value("-growth-limit"),
          value("-acid-limit"),
          value("-alpha"),
          value("-beta"),
          value("-most"),
          0.0};
}

// A number of the table in the batch that lies so far off.
class Drawn {
 public:
  Drawn(const ParameterTable& table, const Deviates& z) : table_(table), z_(z) {}
  double value(const char* id) const { return table_.row(id).value; }
  double number(const char* id, Differs which) const { return table_.row(id).at(of(z_, which)); }
  double count(const char* id, Differs which) const { return std::pow(10.0, number(id, which)); }

 private:
  const ParameterTable& table_;
  const Deviates& z_;
};

std::vector<AcidGroup> groups(const ParameterTable& table, const std::string& prefix, int count) {
  std::vector<AcidGroup> groups;
  for (int i = 1; i <= count; ++i) {
    const std::string group = prefix + std::to_string(i);
    groups.push_back({table.row(group + "-pk").value, table.row(group + "-amount").value});
  }
  return groups;
}

void pour_rinse_water(BatchModel& batch, const ParameterTable& table, const Drawn& drawn) {
  batch.fast.start = drawn.count("rinse-fast-start", Differs::fast_start);
  batch.tolerant.start = drawn.count("rinse-tolerant-start", Differs::tolerant_start);
  batch.lag_work = drawn.number("lag-work-alone", Differs::lag_work);
  batch.buffer.groups = groups(table, "rinse-group-", 2);
  batch.buffer.ph0 = drawn.number("rinse-ph-start", Differs::ph_start);
  batch.buffer.strength = drawn.number("rinse-strength", Differs::milk_strength);
  batch.lactose = drawn.value("rinse-sugar");
}

void pour_milk(BatchModel& batch, const ParameterTable& table, const Drawn& drawn,
               const Brew& brew) {
  const Starter starter = brew.starter_share > 0.0 ? brew.starter : Starter::none;
  const double share = starter == Starter::none ? 0.0 : brew.starter_share;
  const double thinned = (1.0 - share) / (1.0 - usual_share);
  if (brew.milk == Milk::raw)
    batch.fast.start = thinned * drawn.count("fast-start", Differs::fast_start);
  if (brew.milk == Milk::raw && starter != Starter::rinse_water)
    batch.tolerant.start = thinned * drawn.count("milk-tolerant-start", Differs::tolerant_start);
  if (starter == Starter::rinse_water)
    batch.tolerant.start =
        share / usual_share * drawn.count("tolerant-start", Differs::tolerant_start);
  if (starter == Starter::serum) {
    batch.fast.start += share * drawn.count("serum-fast", Differs::fast_start);
    batch.tolerant.start += share * drawn.count("serum-tolerant", Differs::tolerant_start);
    batch.lactic = share * drawn.value("serum-acid");
  }
  batch.lag_work =
      drawn.number(starter == Starter::none ? "lag-work-alone" : "lag-work", Differs::lag_work);
  batch.buffer.groups = groups(table, "acid-group-", 5);
  batch.buffer.ph0 = drawn.number("ph-start", Differs::ph_start);
  batch.buffer.strength = thinned * drawn.number("milk-strength", Differs::milk_strength);
  batch.lactose = thinned * drawn.value("lactose");
}

}  // namespace

BatchModel batch_of(const ParameterTable& table, const Deviates& z, const Brew& brew) {
  const Drawn drawn(table, z);
  BatchModel batch{};
  batch.fast = population(table, "fast");
  batch.fast.temperature.min = drawn.number("fast-min", Differs::fast_min);
  batch.tolerant = population(table, "tolerant");
  batch.tolerant.b = drawn.number("tolerant-beta", Differs::tolerant_beta);
  batch.tolerant.acid_limit = drawn.number("tolerant-acid-limit", Differs::tolerant_acid_limit);
  batch.buffer.lactic_pka = drawn.value("lactic-pka-milk");
  batch.limits_pka = drawn.value("lactic-pka-limits");
  batch.half = drawn.value("lactose-half");
  batch.yield = drawn.value("lactate-yield");
  batch.speed = drawn.number("speed", Differs::speed);
  batch.acid_speed = drawn.number("acid-speed", Differs::acid_speed);
  batch.vessel_pace = drawn.number("vessel-pace", Differs::vessel_pace);
  batch.air_offset = drawn.number("air-offset", Differs::air_offset);
  if (brew.liquid == Liquid::rinse_water)
    pour_rinse_water(batch, table, drawn);
  else
    pour_milk(batch, table, drawn, brew);
  return batch;
}

BatchModel failing_batch_of(const ParameterTable& table, const Deviates& z, const Brew& brew) {
  BatchModel batch = batch_of(table, z, brew);
  const double even_share = normal_below(of(z, Differs::failing));
  const double share = table.row("failure-speed-most").value * even_share;
  batch.speed *= share;
  batch.acid_speed *= share;
  return batch;
}

}  // namespace wheyfield::fermentation
