#include "fermentation/look.h"

#include <algorithm>
#include <array>

namespace wheyfield::fermentation {
namespace {

// Where two people say different things the one further down counts.
constexpr std::array smells{"", "clean-sour", "sweet", "other", "putrid"};
constexpr std::array surfaces{"", "clear", "white-film", "gas", "coloured-mould"};

template <class Words>
const std::string& graver(const Words& words, const std::string& a, const std::string& b) {
  const auto place = [&](const std::string& word) {
    return std::find(words.begin(), words.end(), word) - words.begin();
  };
  return place(a) < place(b) ? b : a;
}

void both_must_say_so(std::optional<bool>& one, std::optional<bool> other) {
  if (!one || (other && !*other)) one = other;
}

}  // namespace

double step_of(Scale scale) {
  switch (scale) {
    case Scale::half_strip:
      return 0.5;
    case Scale::third_strip:
      return 0.3;
    case Scale::meter:
      break;
  }
  return 0.1;
}

std::vector<Look> one_for_each_visit(const std::vector<Look>& looks) {
  std::vector<Look> visits;
  for (const Look& look : looks) {
    if (visits.empty() || visits.back().hours < look.hours) {
      visits.push_back(look);
      continue;
    }
    Look& visit = visits.back();
    if (look.ph && (!visit.ph || *visit.ph < *look.ph)) {
      visit.ph = look.ph;
      visit.scale = look.scale;
    }
    both_must_say_so(visit.set, look.set);
    both_must_say_so(visit.clear_liquid, look.clear_liquid);
    if (!visit.celsius) visit.celsius = look.celsius;
    visit.smell = graver(smells, visit.smell, look.smell);
    visit.surface = graver(surfaces, visit.surface, look.surface);
  }
  return visits;
}

std::vector<Reading> readings_of(const std::vector<Look>& looks) {
  std::vector<Reading> readings;
  for (const Look& look : looks) {
    if (look.ph)
      readings.push_back({look.scale == Scale::meter ? Reading::Kind::meter : Reading::Kind::strip,
                          look.hours, *look.ph, step_of(look.scale)});
    if (look.set) readings.push_back({Reading::Kind::set, look.hours, *look.set ? 1.0 : 0.0});
    if (look.celsius) readings.push_back({Reading::Kind::thermometer, look.hours, *look.celsius});
  }
  return readings;
}

}  // namespace wheyfield::fermentation
