// What the batch answers have in common: the outlook as JSON, as sentences and as a chart.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "api/session.h"
#include "fermentation/brew.h"
#include "fermentation/judgement.h"
#include "fermentation/outlook.h"
#include "fermentation/quality.h"
#include "sheet/page.h"

namespace wheyfield::api {

inline constexpr double day_hours = 24.0;

// When it began: with it hours become days and parts of the day.
struct Began {
  calendar::Date on;
  double hour = 0.0;  // of the day
};

// A batch, asked for or noted, with what was worked out of it.
struct ToldBatch {
  const Session& session;
  fermentation::Brew brew;
  double litres = 0.0;
  std::optional<Began> began;
  double horizon = 0.0;  // [h]
  fermentation::Outlook outlook;
  double now = 0.0;      // [h] since it began
  bool has_set = false;  // somebody saw it
};

// An hour of the batch as a day and an hour of the day.
struct OnDay {
  calendar::Date on;
  double hour = 0.0;
};
OnDay on_day(const Began& began, double hours);
// "Fri 5 Mar, noon", "Fri 5 Mar, night" (up to 5:00 on Sat 6).
std::string moment_text(const words::Catalogue& words, const OnDay& moment);
// An hour at which one can look: the next whole one between the rows look-from and look-to.
OnDay looking_hour(const Session& session, const OnDay& moment);

// The members hours_to_ph, ready, failed_probability, set, set_window, ready_window.
void put_outlook(const ToldBatch& batch, Answer& answer);

// "Set between .. and .., most likely ..": when it sets and is sour enough, of what lies ahead.
std::vector<std::string> outlook_texts(const ToldBatch& batch);
// What was reckoned with: litres, milk, starter.
std::string basis_text(const ToldBatch& batch);

// Of the hours that are told as a table.
void hours_table(const ToldBatch& batch, sheet::Page& page);

// What stands on the chart besides the outlook.
struct ChartMarks {
  std::string title;  // "" for one of no batch in particular
  std::vector<fermentation::Look> looks;
  std::optional<double> now = std::nullopt;   // [h]
  std::optional<double> look = std::nullopt;  // [h], the next one
};
std::string chart_of(const ToldBatch& batch, const ChartMarks& marks);

// The rows of the model and how the answer stands on them.
void note_model(const Session& session, const fermentation::ParameterTable& table, Answer& answer);

}  // namespace wheyfield::api
