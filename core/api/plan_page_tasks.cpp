// The work of every day, with its cautions.
#include <algorithm>
#include <map>

#include "api/plan_page_parts.h"

namespace wheyfield::api {
namespace {

std::string task_line(const PageWords& w, const season::Task& task) {
  return w.say("task.line",
               {{"who", who_text(w.worked, task.who)}, {"task", task_text(w.worked, task)}});
}

}  // namespace

// The work with its cautions, each said once, where the act happens.
void work_list(const PageWords& w, sheet::Page& page,
               const std::vector<const season::Task*>& tasks) {
  std::vector<std::string> lines, warned;
  for (const season::Task* task : tasks) {
    lines.push_back(task_line(w, *task));
    for (const std::string& id : task->cautions)
      if (const std::string brief = "brief." + id; w.words.has(brief))
        if (std::string text = w.words.text(brief, caution_values(w.worked, *task));
            std::find(warned.begin(), warned.end(), text) == warned.end())
          warned.push_back(std::move(text));
  }
  page.list(std::move(lines));
  for (std::string& text : warned) page.caution(std::move(text));
}

sheet::Page tasks_page(const PageWords& w) {
  sheet::Page page("tasks", w.say("page.tasks"));
  std::map<int, std::vector<const season::Task*>> days;
  for (const season::Task& task : w.worked.plan.tasks) days[task.date.days()].push_back(&task);
  for (const auto& [day, list] : days) {
    page.heading(w.words.long_date(calendar::Date::from_days(day)));
    work_list(w, page, list);
  }
  return page;
}

}  // namespace wheyfield::api
