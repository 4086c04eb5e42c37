#include "api/plan_rows.h"

#include "api/row_text.h"
#include "crop/roads.h"
#include "season/harvest_wait.h"

namespace wheyfield::api {
namespace {

using quantity::in_litres;
using quantity::in_millilitres;
using quantity::rounded;

std::string lot_name(const WorkedPlan& w, std::size_t lot) {
  const std::size_t opening = w.plan.opening.size();
  return lot < opening ? "in-hand" : w.plan.batches.batches[lot - opening].name;
}

const char* hand_out_word(season::HandOut hand_out) {
  if (hand_out == season::HandOut::none) return "none";
  return hand_out == season::HandOut::by_seed ? "by-seed" : "volume";
}

double row_litres(quantity::Volume v) { return rounded(in_litres(v), 6); }
double row_millilitres(quantity::Volume v) { return rounded(in_millilitres(v), 6); }

std::optional<std::string> iso_or_none(const std::optional<calendar::Date>& day) {
  return day ? std::optional(day->iso()) : std::nullopt;
}

const std::string& crop_of(const WorkedPlan& w, std::size_t farm, std::size_t field) {
  return w.farm(farm).fields[field].planting.crop->id;
}

void add_window(RowText& row, const calendar::Window& window) {
  row.object("window", [&](RowText& edge) {
    edge.text("early", window.early.iso());
    edge.text("likely", window.likely.iso());
    edge.text("late", window.late.iso());
  });
}

void add_amounts(RowText& row, const season::FieldUse& due, const season::Field& field) {
  const double acres = quantity::in_acres(field.area);
  row.number("area_m2", rounded(quantity::in_square_metres(field.area), 3));
  row.number("mix_l", row_litres(due.mix));
  row.number("mix_l_per_acre", rounded(in_litres(due.mix) / acres, 3));
  row.whole("plants", due.plants);
  row.whole("serum_ml", due.serum_ml);
  row.whole("usual_ml", due.usual_ml);
}

void add_hand_out(RowText& row, const season::FieldUse& due) {
  row.text("hand_out", hand_out_word(due.hand_out));
  row.number_or_null("ml_per_kg", due.hand_out == season::HandOut::by_seed
                                      ? std::optional(row_millilitres(due.per_kg))
                                      : std::nullopt);
}

void add_use(RowText& row, const WorkedPlan& w, const season::PlannedUse& use) {
  const season::FieldUse& due = use.due;
  row.text("farm", w.farm(due.farm).code);
  row.whole("field", static_cast<std::int64_t>(due.field) + 1);
  row.text("crop", crop_of(w, due.farm, due.field));
  row.text("use", due.use.id).text("event", due.use.event);
  add_window(row, due.use.window);
  row.text("road", crop::road_word(due.road));
  row.text_or_null("collect_on", use.planned ? iso_or_none(due.collect_on) : std::nullopt);
  row.text("method", due.method).flag("measured", due.measured);
  add_amounts(row, due, w.farm(due.farm).fields[due.field]);
  add_hand_out(row, due);
  const auto wait = season::harvest_wait(w.season, due, w.harvest);
  row.text_or_null("pick_from", wait ? iso_or_none(wait->pick_from) : std::nullopt);
  row.flag("planned", use.planned).whole("short_ml", use.short_ml);
  row.list("from", use.draws, [&](RowText& one, const season::Draw& draw) {
    one.text("lot", lot_name(w, draw.lot)).whole("ml", draw.ml);
  });
}

void add_share(RowText& row, const WorkedPlan& w, const season::Share& share) {
  row.text("farm", w.farm(share.farm).code);
  row.whole("serum_ml", share.serum_ml).whole("short_ml", share.short_ml);
  row.texts("uses", share.uses);
  row.list("by_seed", share.by_seed, [&](RowText& one, const season::SeedShare& seed) {
    one.whole("field", static_cast<std::int64_t>(seed.field) + 1);
    one.text("crop", crop_of(w, share.farm, seed.field));
    one.number("ml_per_kg", row_millilitres(seed.per_kg)).whole("kept_ml", seed.kept_ml);
  });
  row.list("pick_from", share.picking, [&](RowText& one, const season::PickFrom& pick) {
    one.whole("field", static_cast<std::int64_t>(pick.field) + 1);
    one.text("crop", crop_of(w, share.farm, pick.field)).text("day", pick.day.iso());
  });
  row.flag("absent", share.absent);
  row.text_or_null("send_by", iso_or_none(share.send_by));
}

void add_bring(RowText& row, const WorkedPlan& w, const season::Bring& bring) {
  row.text("item", bring.item).number("amount", rounded(bring.amount, 6));
  row.text("unit", bring.unit);
  row.number("price", bring.price.amount()).number("cost", bring.cost.amount());
  row.text("batch", w.batch(bring.batch, bring.preparation).name).text("on", bring.on.iso());
  row.flag("own", bring.own);
}

void add_meeting(RowText& row, const WorkedPlan& w, const season::Meeting& meeting) {
  row.text("date", meeting.date.iso());
  row.list("shares", meeting.shares,
           [&](RowText& one, const season::Share& share) { add_share(one, w, share); });
  row.list("bring", meeting.bring,
           [&](RowText& one, const season::Bring& bring) { add_bring(one, w, bring); });
  row.texts("absent", meeting.absent).number("milk_money", meeting.milk_money.amount());
}

void add_soak(RowText& row, const WorkedPlan& w, const season::SoakLine& line) {
  row.text("farm", w.farm(line.farm).code);
  row.whole("field", static_cast<std::int64_t>(line.field) + 1);
  row.text("crop", crop_of(w, line.farm, line.field)).flag("weighed", line.weighed);
  row.number("hours", rounded(line.soak.hours, 3));
  row.number("water_l", row_litres(line.soak.water));
  row.number("serum_ml", row_millilitres(line.soak.serum));
  row.text("text", soak_text(w, line));
}

void add_caps(RowText& row, const char* name, const std::optional<dosing::CapCount>& caps) {
  if (!caps) return void(row.text_or_null(name, std::nullopt));
  row.object(name, [&](RowText& one) {
    one.number("count", caps->caps).number("given_ml", row_millilitres(caps->given));
    one.number("off", rounded(caps->off, 6)).flag("fits", caps->fits);
  });
}

void add_loads(RowText& row, const season::DoseLine& line) {
  row.number("loads", rounded(line.loads.loads, 6)).whole("full_loads", line.loads.full);
  row.number("serum_full_ml", row_millilitres(line.loads.serum_full));
  add_caps(row, "caps", line.caps);
  row.number("last_l", row_litres(line.loads.last));
  row.number("serum_last_ml", row_millilitres(line.loads.serum_last));
  add_caps(row, "caps_last", line.caps_last);
}

void add_dose(RowText& row, const WorkedPlan& w, const season::DoseLine& line) {
  const season::Farm& farm = w.farm(line.farm);
  row.text("farm", farm.code).whole("field", static_cast<std::int64_t>(line.field) + 1);
  row.text("crop", crop_of(w, line.farm, line.field)).text("method", line.method);
  row.texts("uses", line.uses).text("container", line.container);
  row.number("container_l", row_litres(line.container_size));
  row.number("mix_l", row_litres(line.mix));
  row.whole("serum_ml", line.serum_ml).whole("usual_ml", line.usual_ml);
  row.flag("measured", line.measured).whole("plants", line.plants);
  row.number_or_null("cap_ml", farm.cap ? std::optional(row_millilitres(*farm.cap)) : std::nullopt);
  add_loads(row, line);
  row.number("given_ml", row_millilitres(line.given));
  row.text_or_null("pick_from", iso_or_none(line.pick_from));
  row.text("text", dose_text(w, line));
}

template <class Rows, class Add>
std::string rows_text(const WorkedPlan& w, const Rows& rows, Add add) {
  std::string text;
  append_rows(text, rows, [&](RowText& row, const auto& one) { add(row, w, one); });
  return text;
}

}  // namespace

std::string uses_text(const WorkedPlan& w) { return rows_text(w, w.plan.uses, add_use); }
std::string meetings_text(const WorkedPlan& w) { return rows_text(w, w.meetings, add_meeting); }
std::string soaks_text(const WorkedPlan& w) { return rows_text(w, w.soaks, add_soak); }
std::string doses_text(const WorkedPlan& w) { return rows_text(w, w.doses, add_dose); }

}  // namespace wheyfield::api
