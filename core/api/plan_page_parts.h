// The pages of a season plan, one function each, and how amounts and names are written on them.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "api/plan_answer.h"
#include "season/tasks.h"

namespace wheyfield::api {

using Rows = std::vector<std::vector<std::string>>;

// Writes what was worked out, in the reader's language.
struct PageWords {
  explicit PageWords(const WorkedPlan& of) : worked(of), words(of.words()) {}

  const WorkedPlan& worked;
  const words::Catalogue& words;

  std::string say(const char* key, const words::Values& values = {}) const;
  std::string litres(std::int64_t ml) const;  // to the millilitre
  std::string millilitres(std::int64_t ml) const;
  std::string number(double value, int places) const;
  std::string unit(const std::string& id, double n) const;  // as `n` of them are called
  std::string span(const calendar::Window& window) const;
  std::string crop_name(std::size_t farm, std::size_t field) const;
  sheet::Column left(const char* key) const;
  sheet::Column right(const char* key) const;
  const std::vector<season::Batch>& made() const { return worked.plan.batches.batches; }
};

// "kale, maize"
std::string comma_list(const std::set<std::string>& names);

// The work with its cautions, each said once, where the act happens.
void work_list(const PageWords& w, sheet::Page& page,
               const std::vector<const season::Task*>& tasks);

// When each step of a batch is.
Rows step_rows(const PageWords& w, const recipe::Recipe& recipe, const season::Batch& batch);
// Which forecast each step of a batch goes by.
std::vector<std::string> forecast_texts(const PageWords& w, const recipe::Recipe& recipe,
                                        const season::Batch& batch);
std::vector<sheet::Column> step_columns(const PageWords& w);
// "P1: start 3 March, 4 L in vessel A at farm 7, ready 12 March"
std::string batch_line(const PageWords& w, const season::Batch& batch);
// What is wanted of a preparation, what lacks, how sure it is.
std::vector<std::string> preparation_lines(const PageWords& w, std::size_t preparation);

sheet::Page preparations_page(const PageWords& w);
sheet::Page summary_page(const PageWords& w);
sheet::Page uses_page(const PageWords& w);
sheet::Page batches_page(const PageWords& w);
sheet::Page tasks_page(const PageWords& w);
sheet::Page meeting_page(const PageWords& w, const season::Meeting& m);
sheet::Page shopping_page(const PageWords& w);
sheet::Page stock_page(const PageWords& w);
sheet::Page doses_page(const PageWords& w);
sheet::Page rehearsal_page(const PageWords& w);
sheet::Page cost_page(const PageWords& w);
sheet::Page cautions_page(const PageWords& w);

}  // namespace wheyfield::api
