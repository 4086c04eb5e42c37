#include "fermentation/priors.h"

#include <cmath>
#include <string>

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

MilkBuffer buffer(const ParameterTable& table) {
  MilkBuffer milk;
  for (int i = 1; i <= 5; ++i) {
    const std::string group = "acid-group-" + std::to_string(i);
    milk.groups.push_back({table.row(group + "-pk").value, table.row(group + "-amount").value});
  }
  milk.lactic_pka = table.row("lactic-pka-milk").value;
  return milk;
}

}  // namespace

BatchModel batch_of(const ParameterTable& table, const Deviates& z) {
  const auto drawn = [&](const char* id, Differs which) { return table.row(id).at(of(z, which)); };
  const auto value = [&](const char* id) { return table.row(id).value; };
  BatchModel batch{};
  batch.fast = population(table, "fast");
  batch.fast.temperature.min = drawn("fast-min", Differs::fast_min);
  batch.fast.start = std::pow(10.0, drawn("fast-start", Differs::fast_start));
  batch.tolerant = population(table, "tolerant");
  batch.tolerant.start = std::pow(10.0, drawn("tolerant-start", Differs::tolerant_start));
  batch.tolerant.b = drawn("tolerant-beta", Differs::tolerant_beta);
  batch.tolerant.acid_limit = drawn("tolerant-acid-limit", Differs::tolerant_acid_limit);
  batch.lag_work = drawn("lag-work", Differs::lag_work);
  batch.buffer = buffer(table);
  batch.buffer.ph0 = drawn("ph-start", Differs::ph_start);
  batch.buffer.strength = drawn("milk-strength", Differs::milk_strength);
  batch.limits_pka = value("lactic-pka-limits");
  batch.lactose = value("lactose");
  batch.half = value("lactose-half");
  batch.yield = value("lactate-yield");
  batch.speed = drawn("speed", Differs::speed);
  batch.acid_speed = drawn("acid-speed", Differs::acid_speed);
  batch.vessel_pace = drawn("vessel-pace", Differs::vessel_pace);
  batch.air_offset = drawn("air-offset", Differs::air_offset);
  return batch;
}

BatchModel failing_batch_of(const ParameterTable& table, const Deviates& z) {
  BatchModel batch = batch_of(table, z);
  const double even_share = normal_below(of(z, Differs::failing));
  const double share = table.row("failure-speed-most").value * even_share;
  batch.speed *= share;
  batch.acid_speed *= share;
  return batch;
}

}  // namespace wheyfield::fermentation
