// The season plan, dressed as the fields of an answer and as pages to read.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "api/season_reader.h"
#include "api/session.h"
#include "economics/cost.h"
#include "recipe/own_yields.h"
#include "season/doses.h"
#include "season/meetings.h"
#include "season/plan.h"
#include "season/shopping.h"
#include "season/soaks.h"
#include "season/stock.h"
#include "season/yields.h"
#include "sheet/page.h"

namespace wheyfield::api {

// A recipe with the yields of the group's own batches (kinds `batch` and `made`) in place of what
// is taught everywhere.
struct OwnRecipe {
  const recipe::Recipe* taught;
  std::vector<recipe::LearnedYield> yields;  // every measured one; those without batches as taught
  recipe::Recipe recipe;
};
// On how many batches of the place its pace of souring rests.
struct OwnPace {
  std::string place;
  int batches = 0;
};

using OwnRecipes = std::vector<std::unique_ptr<const OwnRecipe>>;

// Everything that was worked out for one season.
struct WorkedPlan {
  const Session& session;
  const recipe::Recipe& recipe;
  season::Season season;
  season::SeasonPlan plan;
  season::Shopping shopping;
  std::vector<season::StockChange> stock;
  std::vector<season::DoseLine> doses;
  std::vector<season::SoakLine> soaks;
  std::vector<season::Meeting> meetings;
  std::vector<season::BatchYield> yields;  // of the plan's batches, in their order
  economics::SeasonCost cost;
  dosing::HarvestRule harvest;
  season::PlanRules rules;
  // What is made beside: its milk and labour, and what the shopping list costs more for it.
  economics::MakingCost beside;
  quantity::Money bought_beside;
  OwnRecipes own;  // hold the recipes of the season
  std::vector<OwnPace> paces = {};

  std::vector<season::Making> makings() const { return season::makings(season, recipe, plan); }
  const season::Batch& batch(std::size_t index, std::optional<std::size_t> preparation) const {
    return preparation ? plan.others[*preparation].batches.batches[index]
                       : plan.batches.batches[index];
  }
  const words::Catalogue& words() const { return session.words; }
  const season::Farm& farm(std::size_t index) const { return season.farms[index]; }
};

// A season that was read without errors, of the body or as the journal tells it.
struct SoundSeason {
  ReadSeason read;
  const recipe::Recipe* recipe;
  OwnRecipes own = {};  // hold `recipe` and those of the preparations, in this order
  std::vector<OwnPace> paces = {};
};
outcome::Result<SoundSeason> sound_season(const Session& session, const nlohmann::json& body);
// Everything to be said of it before it is planned.
outcome::Problems remarks(const Session& session, const SoundSeason& sound);
// With the share of batches that failed: the group's own once enough are recorded.
season::PlanRules plan_rules(const Session& session, const recipe::Recipe& recipe);

constexpr season::Simulation usual_seasons{1, 2000};

// The plan of the body's season, or of the season that the journal tells. What is to be said of it,
// and its sources, go into `answer`. Errors: those of season.plan.
// `simulation`: how many seasons of chance are played for its risk; `announced`: what is kept of an
// earlier plan of the season that was read.
using ReadAnnounced =
    std::function<outcome::Result<std::vector<season::Announced>>(const SoundSeason& sound)>;
outcome::Result<WorkedPlan> planned(const Session& session, const nlohmann::json& body,
                                    Answer& answer, season::Simulation simulation = usual_seasons,
                                    const ReadAnnounced& announced = {});

// What a recipe is called; its id where there are no words for it.
std::string recipe_name(const words::Catalogue& words, const recipe::Recipe& recipe);

// uses, batches, preparations, tasks, meetings, shopping, stock, doses, cost, shortages, cautions;
// shapes in docs/formats/facade.md.
void add_plan_fields(const WorkedPlan& worked, Answer& answer);

// summary, uses, batches, preparations (when there are any), tasks, meeting-YYYY-MM-DD.., shopping,
// stock, doses, rehearsal, cost, cautions.
std::vector<sheet::Page> plan_pages(const WorkedPlan& worked);

// As the member `pages` of an answer, written page by page.
void put_pages(const std::vector<sheet::Page>& pages, Answer& answer);

// How the plan fares by chance: {each_use, all_uses, litres, worst_twentieth, seasons}.
Json on_time_json(const WorkedPlan& worked);

// {share, own, recorded, missing} of the failure share, and what it rests on in words: a guess, or
// the group's own batches.
Json failure_json(const season::FailureShare& failure);
std::string risk_basis_text(const WorkedPlan& worked);

// The caution ids of a plan in the order of the data file, without repeats.
std::vector<std::string> plan_cautions(const WorkedPlan& worked);

// Sentences used by fields and pages alike.
std::string task_text(const WorkedPlan& worked, const season::Task& task);
// What a caution at this task may name: its amounts, and {n} cups of milk where it takes milk.
words::Values caution_values(const WorkedPlan& worked, const season::Task& task);
// The events of the fields that a shortage leaves short: the fourth use goes by several names.
std::vector<std::string> shortage_events(const WorkedPlan& worked,
                                         const season::Shortage& shortage);
std::string shortage_text(const WorkedPlan& worked, const season::Shortage& shortage);
// What is wanted of a preparation on one day, and how much of it is not in the plan.
std::string wanted_text(const WorkedPlan& worked, std::size_t preparation, std::size_t due);
std::string dose_text(const WorkedPlan& worked, const season::DoseLine& line);
std::string soak_text(const WorkedPlan& worked, const season::SoakLine& line);
std::string money_text(const WorkedPlan& worked, quantity::Money money);
std::string who_text(const WorkedPlan& worked, recipe::Who who);
std::vector<std::string> candid_lines(const WorkedPlan& worked);

}  // namespace wheyfield::api
