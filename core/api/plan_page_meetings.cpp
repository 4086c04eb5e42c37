// One meeting: its work, what to bring, who takes home how much.
#include "api/plan_page_parts.h"

namespace wheyfield::api {
namespace {

using words::Decimal;

std::string event_names(const PageWords& w, const std::vector<std::string>& events) {
  std::string out;
  for (const std::string& event : events)
    out += (out.empty() ? "" : ", ") + w.words.text("use." + event);
  return out;
}

void meeting_bring(const PageWords& w, sheet::Page& page, const season::Meeting& m) {
  page.heading(w.say("meeting.bring"));
  std::vector<std::string> lines;
  for (const season::Bring& b : m.bring) {
    const bool milk = b.item == "milk";
    const bool today = b.on == m.date;
    const char* key = milk    ? (today ? "meeting.milk" : "meeting.milk-later")
                      : b.own ? (today ? "meeting.own" : "meeting.own-later")
                              : (today ? "meeting.item" : "meeting.item-later");
    const std::string name = (b.own ? "material." : "item.") + b.item;
    lines.push_back(w.say(key, {{"amount", season::shown_amount(b.amount)},
                                {"unit", w.unit(b.unit, b.amount)},
                                {"item", w.words.text(name)},
                                {"batch", w.worked.batch(b.batch, b.preparation).name},
                                {"cost", money_text(w.worked, b.cost)},
                                {"day", b.on}}));
  }
  if (lines.empty()) page.text(w.say("meeting.nothing-to-bring"));
  page.list(std::move(lines));
  if (m.milk_money.thousandths() > 0)
    page.text(w.say("meeting.money", {{"money", money_text(w.worked, m.milk_money)}}));
}

std::string remark(const PageWords& w, const season::Share& share) {
  std::string text;
  if (share.send_by)
    text = w.say("meeting.absent-send", {{"day", *share.send_by}});
  else if (share.absent)
    text = w.say("meeting.absent-mark");
  for (const season::SeedShare& seed : share.by_seed)
    text += (text.empty() ? "" : "; ") +
            w.say("meeting.by-seed", {{"crop", w.crop_name(share.farm, seed.field)},
                                      {"ml", Decimal{quantity::in_millilitres(seed.per_kg), 2}}});
  for (const season::PickFrom& pick : share.picking)
    text += (text.empty() ? "" : "; ") +
            w.say("meeting.pick-from",
                  {{"crop", w.crop_name(share.farm, pick.field)}, {"day", pick.day}});
  return text;
}

void meeting_shares(const PageWords& w, sheet::Page& page, const season::Meeting& m) {
  page.heading(w.say("meeting.due"));
  if (m.shares.empty()) return void(page.text(w.say("meeting.none-due")));
  Rows rows;
  std::int64_t sum = 0, missing = 0, kept = 0;
  for (const season::Share& share : m.shares) {
    sum += share.serum_ml;
    missing += share.short_ml;
    for (const season::SeedShare& seed : share.by_seed) kept += seed.kept_ml;
    const bool seed_only = share.serum_ml == 0 && !share.by_seed.empty();
    rows.push_back({w.worked.farm(share.farm).code, event_names(w, share.uses),
                    seed_only ? "" : w.millilitres(share.serum_ml),
                    share.short_ml > 0 ? w.millilitres(share.short_ml) : "", remark(w, share)});
  }
  page.table({w.right("col.farm"), w.left("col.use"), w.right("col.serum"), w.right("col.short"),
              w.left("col.remark")},
             rows);
  page.text(
      w.say("meeting.sum",
            {{"n", m.shares.size()}, {"litres", w.litres(sum)}, {"short", w.litres(missing)}}));
  if (kept > 0) page.text(w.say("meeting.kept-for-seed", {{"litres", w.litres(kept)}}));
}

}  // namespace

sheet::Page meeting_page(const PageWords& w, const season::Meeting& m) {
  sheet::Page page("meeting-" + m.date.iso(),
                   w.say("page.meeting", {{"day", w.words.long_date(m.date)}}));
  std::vector<const season::Task*> work;
  for (const std::size_t i : m.tasks) work.push_back(&w.worked.plan.tasks[i]);
  page.heading(w.say("meeting.work"));
  if (work.empty()) page.text(w.say("meeting.no-work"));
  work_list(w, page, work);
  meeting_bring(w, page, m);
  meeting_shares(w, page, m);
  for (const std::string& code : m.absent) page.text(w.say("meeting.absent", {{"farm", code}}));
  page.text(w.say("meeting.came"));
  return page;
}

}  // namespace wheyfield::api
