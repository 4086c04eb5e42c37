// When will a batch be sour that stands in such air: asked without a journal, or for a place of it.
#include <algorithm>

#include "api/batch_answer.h"
#include "api/batch_fields.h"
#include "api/batch_records.h"
#include "api/dose_answer.h"
#include "api/field_reader.h"
#include "api/temperature_reader.h"
#include "journal/standing.h"
#include "quantity/number_text.h"

namespace wheyfield::api {
namespace {

using fermentation::Air;
using fermentation::Brew;
using fermentation::Starter;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;

const Fields forecast_fields{"BatchForecast",
                             {{"stage", Holds::text, true},
                              {"recipe", Holds::text},
                              {"milk", Holds::choice, false, "raw|heated"},
                              {"start", Holds::text},
                              {"amount", Holds::volume},
                              {"air", Holds::text},
                              {"place", Holds::text},
                              {"readings", Holds::list, false, "", &reading_fields()},
                              {"months", Holds::list, false, "", &month_fields()},
                              {"station", Holds::text},
                              {"altitude", Holds::length},
                              {"on", Holds::date},
                              {"hour", Holds::number},
                              {"pages", Holds::flag},
                              {"svg", Holds::flag}}};

// The steps of all recipes that the model speaks of and that have this id.
struct Stage {
  const recipe::Recipe* recipe = nullptr;
  const recipe::Step* step = nullptr;
};

class ForecastRequest {
 public:
  ForecastRequest(const Session& session, const json& body, Problems& problems, Answer& answer)
      : session_(session),
        body_(body),
        problems_(problems),
        answer_(answer),
        r_(body, "", session.data.units(), problems) {}

  Stage stage() const {
    const std::string wanted = r_.text("stage").value_or("");
    const std::string recipe = r_.text("recipe").value_or("");
    if (!recipe.empty() && session_.recipe(recipe) == nullptr) {
      r_.add("recipe-unknown", "recipe", recipe, {{"known", recipe_ids()}});
      return {};
    }
    std::vector<Stage> found;
    std::vector<std::string> known;
    for (const recipe::Recipe& one : session_.recipes)
      for (const recipe::Step& step : one.steps) {
        if (step.sours.empty() || (!recipe.empty() && one.id != recipe)) continue;
        known.push_back(step.id);
        if (step.id == wanted) found.push_back({&one, &step});
      }
    if (found.empty())
      r_.add("stage-unknown", "stage", wanted,
             {{"known", joined(known)}, {"suggestion", nearest(wanted, known)}});
    else if (found.size() > 1)
      r_.add("stage-of-several", "stage", wanted, {{"known", recipe_ids()}});
    else
      return found.front();
    return {};
  }

  // "25", "14/28"; else readings, months, station, altitude; else the place of the journal.
  std::optional<Air> air(const std::optional<Began>& began, double horizon) const {
    if (const auto text = r_.text("air")) return plain_air(*text, began ? began->hour : 0.0);
    const Began at = began.value_or(Began{session_.today, 0.0});
    const DaySpan days{at.on, at.on + static_cast<int>(horizon / 24.0) + 2};
    const std::size_t before = problems_.size();
    std::optional<PlaceTemperatures> found;
    if (const auto place = r_.text("place")) {
      const journal::Item* item = session_.facts.find("place", *place);
      if (item == nullptr)
        r_.add("place-unknown", "place", *place, {{"known", places()}});
      else
        found = read_temperatures(item->body, "/notes/" + item->said.back()->id.text(), days,
                                  session_.data, problems_, answer_.used);
    } else {
      found = read_temperatures(body_, "", days, session_.data, problems_, answer_.used);
    }
    if (found) return Air::series(found->series, at.on, at.hour);
    if (problems_.size() == before) r_.add("air-missing", "air", "");
    return std::nullopt;
  }

  // Milk and starter as they were said, else as the recipe has them.
  Brew brew(const Stage& stage) const {
    Brew brew = usual_brew(*stage.step);
    brew.milk = r_.text("milk").value_or("raw") == "heated" ? fermentation::Milk::heated
                                                            : fermentation::Milk::raw;
    if (const auto text = r_.text("start")) read_start(*text, brew);
    return brew;
  }

  std::optional<Began> began() const {
    const auto on = r_.date("on");
    const auto hour = r_.number("hour");
    if (hour && (*hour < 0.0 || *hour >= 24.0))
      r_.add("hour-out-of-range", "hour", *r_.text("hour"), {{"low", "0"}, {"high", "24"}});
    if (!on) return std::nullopt;
    return Began{*on, hour.value_or(session_.data.constant("batch-hour").value)};
  }

  double litres() const {
    if (const auto amount = r_.volume("amount")) {
      const double said = quantity::in_litres(*amount);
      r_.refuse_outside(session_.data.constant("batch-litres-limits"), "batch-amount-out-of-range",
                        "amount", said);
      return said;
    }
    return noted(session_, "batch-usual-litres", "litres in the vessel", answer_).value;
  }

  const FieldReader& reader() const { return r_; }

 private:
  std::optional<Air> plain_air(const std::string& text, double hour) const {
    const std::size_t mark = text.find('/');
    const auto min = quantity::parse_number(text.substr(0, mark));
    const auto max =
        mark == std::string::npos ? min : quantity::parse_number(text.substr(mark + 1));
    if (!min || !max) {
      r_.add("air-unreadable", "air", text);
      return std::nullopt;
    }
    Problems wrong = weather::temperature_problems(*min, *max, "/air");
    for (outcome::Problem& problem : wrong) problem.field = "/air";
    const bool good = wrong.empty();
    outcome::append(problems_, std::move(wrong));
    if (!good) return std::nullopt;
    return mark == std::string::npos ? Air::constant(*min) : Air::daily(*min, *max, hour);
  }

  // "1 L rinse-water in 10 L", "1 L serum in 10 L", "none".
  void read_start(const std::string& text, Brew& brew) const {
    if (text == "none") {
      brew.starter = Starter::none;
      brew.starter_share = 0.0;
      return;
    }
    const std::size_t in = text.find(" in ");
    const std::size_t first = text.find(' ');
    const std::size_t second = first == std::string::npos ? first : text.find(' ', first + 1);
    if (in == std::string::npos || second == std::string::npos || second > in) {
      r_.add("start-unreadable", "start", text);
      return;
    }
    const auto part = session_.data.units().volume(text.substr(0, second));
    const auto whole = session_.data.units().volume(text.substr(in + 4));
    const std::string what = text.substr(second + 1, in - second - 1);
    const bool rinse = what == "rinse-water" || what == "rice rinse-water" || what == "wash";
    const bool known = rinse || what == "serum";
    if (!part || !whole || !known || quantity::in_litres(*part) <= 0.0 ||
        quantity::in_litres(*whole) <= 0.0) {
      r_.add("start-unreadable", "start", text);
      return;
    }
    const double share =
        quantity::in_litres(*part) / (quantity::in_litres(*part) + quantity::in_litres(*whole));
    const reference_data::Sourced& limits = session_.data.constant("starter-share-limits");
    if (share < limits.low || share > limits.high) {
      r_.add("start-out-of-range", "start", text);
      return;
    }
    brew.starter = rinse ? Starter::rinse_water : Starter::serum;
    brew.starter_share = share;
  }

  std::string recipe_ids() const {
    std::vector<std::string> ids;
    for (const recipe::Recipe& one : session_.recipes) ids.push_back(one.id);
    return joined(ids);
  }

  std::string places() const {
    std::vector<std::string> names;
    for (const journal::Item& item : session_.facts.of("place")) names.push_back(item.identity);
    return joined(names);
  }

  const Session& session_;
  const json& body_;
  Problems& problems_;
  Answer& answer_;
  FieldReader r_;
};

sheet::Page forecast_page(const ToldBatch& batch, const std::optional<OnDay>& look) {
  const words::Catalogue& w = batch.session.words;
  sheet::Page page("forecast", w.text("batch.forecast-title"));
  for (std::string& text : outlook_texts(batch)) page.text(std::move(text));
  if (look)
    page.text(w.text("batch.look", {{"day", look->on}, {"hour", words::Decimal{look->hour, 0}}}));
  page.text(basis_text(batch));
  hours_table(batch, page);
  page.text(w.text("batch.failing",
                   {{"n", static_cast<int>(std::lround(100.0 * batch.outlook.failing))}}));
  page.caution(w.text("batch.untested"));
  return page;
}

}  // namespace

const Fields& batch_forecast_fields() { return forecast_fields; }

Result<Answer> batch_forecast(const Session& session, const json& body) {
  Answer answer;
  Problems problems = check_shape(body, forecast_fields, "");
  if (outcome::has_errors(problems)) return failure(problems);
  const auto table = fermentation::ParameterTable::parse(session.data);
  if (!table) return failure(table.error());
  const ForecastRequest request(session, body, problems, answer);
  const Stage stage = request.stage();
  const auto began = request.began();
  const double horizon = session.data.constant("forecast-hours").value;
  const auto air = request.air(began, horizon);
  const double litres = request.litres();
  if (stage.step == nullptr || outcome::has_errors(problems)) return failure(std::move(problems));
  const Brew brew = request.brew(stage);
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  fermentation::Ensemble ensemble(
      *table,
      {*air, fermentation::vessel_hours(table->vessels(), litres), std::nullopt, horizon, brew},
      forecast_seed);
  const ToldBatch batch{session, brew,    litres,
                        began,   horizon, fermentation::outlook(ensemble, *table, {})};
  note_model(session, *table, answer);
  put_outlook(batch, answer);
  std::optional<OnDay> look;
  if (began && batch.outlook.set.likely)
    look = looking_hour(session, on_day(*began, *batch.outlook.set.likely));
  if (look) answer.fields["next_look"] = {{"on", look->on.iso()}, {"hour", look->hour}};
  if (request.reader().flag("svg")) answer.fields["svg"] = chart_of(batch, {});
  add_cautions(session, {"no-tasting", "failed-batch-fate"}, answer);
  if (wants_pages(body)) add_page(session, forecast_page(batch, look), answer);
  return answer;
}

}  // namespace wheyfield::api
