// How amounts, names and columns are written on the pages of a plan.
#include "api/plan_page_parts.h"

namespace wheyfield::api {

using words::Decimal;

std::string PageWords::say(const char* key, const words::Values& values) const {
  return words.text(key, values);
}

std::string PageWords::litres(std::int64_t ml) const {
  return words.number({static_cast<double>(ml) / 1000.0, 3, false});
}

std::string PageWords::millilitres(std::int64_t ml) const {
  return number(static_cast<double>(ml), 0);
}

std::string PageWords::number(double value, int places) const {
  return words.number({value, places});
}

std::string PageWords::unit(const std::string& id, double n) const {
  return words.text("unit." + id, {{"n", Decimal{n, 2}}});
}

std::string PageWords::span(const calendar::Window& window) const {
  return words.span(window.early, window.late);
}

std::string PageWords::crop_name(std::size_t farm, std::size_t field) const {
  return words.text("crop." + worked.farm(farm).fields[field].planting.crop->id);
}

sheet::Column PageWords::left(const char* key) const { return {say(key), false}; }

sheet::Column PageWords::right(const char* key) const { return {say(key), true}; }

std::string comma_list(const std::set<std::string>& names) {
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
  return list;
}

}  // namespace wheyfield::api
