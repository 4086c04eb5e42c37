// What the page of a mix says, block by block.
#include <algorithm>

#include "api/compost_mix.h"

namespace wheyfield::api {
namespace {

using compost::Blend;
using words::Decimal;
using words::Values;

class MixPage {
 public:
  MixPage(const Session& session, const AskedMix& asked, const WorkedMix& worked)
      : session_(session),
        w_(session.words),
        asked_(asked),
        worked_(worked),
        page_("compost-mix", session.words.text("compost.mix-title")) {}

  sheet::Page made() {
    page_.text(headline());
    amounts();
    ratio();
    water();
    volume();
    for (std::size_t i = 0; i < asked_.parts.size(); ++i)
      if (const HeapPart& part = asked_.parts[i]; part.cut && worked_.kg[i] > 0.0)
        page_.text(
            w_.text("compost.cut",
                    {{"ingredient", name(part)},
                     {"limit", Decimal{session_.data.constant("compost-carbon-most").value, 0}}}));
    page_.text(w_.text("compost.one-go"));
    return std::move(page_);
  }

 private:
  static Decimal kilos(double kg) { return {kg, kg >= 10.0 ? 0 : 1}; }

  std::string name(const HeapPart& part) const {
    return part.row == nullptr ? part.id : w_.text("ingredient." + part.id);
  }

  std::string listed(bool free) const {
    std::string all;
    for (std::size_t i = 0; i < asked_.parts.size(); ++i) {
      if (is_free(asked_.parts[i]) != free || worked_.kg[i] < 0.05) continue;
      all += (all.empty() ? "" : ", ") +
             w_.text("compost.amount",
                     {{"kg", kilos(worked_.kg[i])}, {"ingredient", name(asked_.parts[i])}});
    }
    return all.empty() ? w_.text("compost.nothing") : all;
  }

  // "30:1", or the limits.
  std::string goal_text() const {
    const bool range = asked_.ratio_given && asked_.ratio_low < asked_.ratio_high;
    const double low = range ? asked_.ratio_low : goal(session_, asked_);
    return w_.text(range ? "compost.goal-range" : "compost.goal-one",
                   {{"low", Decimal{low, 1}}, {"high", Decimal{asked_.ratio_high, 1}}});
  }

  std::string headline() const {
    const bool fixed = free_parts(asked_) < asked_.parts.size();
    Values values{{"added", listed(true)},
                  {"put", listed(false)},
                  {"ratio", Decimal{goal(session_, asked_), 1}},
                  {"goal", goal_text()},
                  {"low", Decimal{asked_.ratio_low, 1}},
                  {"high", Decimal{asked_.ratio_high, 1}},
                  {"cost", Decimal{price_of(asked_, worked_), 2}},
                  {"moisture", Decimal{asked_.moisture.value_or(0.0), 1}}};
    const std::string key = std::string("compost.") + way_word(worked_.way);
    const bool searched = worked_.way == MixWay::cheapest || worked_.way == MixWay::nearest;
    return w_.text(searched && !fixed ? key + "-all" : key, values);
  }

  void amounts() {
    std::vector<std::vector<std::string>> rows;
    const auto row = [&](const std::string& what, double kg, std::optional<double> litres) {
      rows.push_back({what, w_.number(kilos(kg)),
                      litres ? w_.number({*litres, 0}) : w_.text("compost.unknown")});
    };
    for (std::size_t i = 0; i < asked_.parts.size(); ++i)
      row(name(asked_.parts[i]), worked_.kg[i], loose_litres_of(asked_.parts[i], worked_.kg[i]));
    row(w_.text("compost.together"), worked_.mix.kg, worked_.litres);
    page_.table({{w_.text("compost.col-ingredient")},
                 {w_.text("compost.col-kg"), true},
                 {w_.text("compost.col-litres"), true}},
                std::move(rows));
  }

  void ratio() {
    const auto& usual = session_.data.constant("compost-ratio");
    const auto now = worked_.mix.ratio();
    if (!now) return void(page_.caution(w_.text("compost.no-nitrogen")));
    const Values values{{"ratio", Decimal{*now, 1}},
                        {"moisture", Decimal{worked_.mix.moisture(), 0}},
                        {"low", Decimal{usual.low, 0}},
                        {"high", Decimal{usual.high, 0}}};
    page_.text(w_.text("compost.is", values));
    if (*now < usual.low - 0.05) page_.caution(w_.text("compost.too-green", values));
    if (*now > usual.high + 0.05) page_.caution(w_.text("compost.too-brown", values));
    const double low = worked_.at_low.ratio().value_or(*now);
    const double high = worked_.at_high.ratio().value_or(*now);
    if (high - low > 0.5)
      page_.text(w_.text("compost.range", {{"low", Decimal{low, 0}}, {"high", Decimal{high, 0}}}));
  }

  void water() {
    const auto& usual = session_.data.constant("compost-moisture");
    const Blend& mix = worked_.mix;
    const Values values{{"low", Decimal{compost::water_for_moisture(mix, usual.low), 0}},
                        {"likely", Decimal{compost::water_for_moisture(mix, usual.value), 0}},
                        {"high", Decimal{compost::water_for_moisture(mix, usual.high), 0}},
                        {"goal", Decimal{usual.value, 0}},
                        {"driest", Decimal{usual.low, 0}},
                        {"wettest", Decimal{usual.high, 0}}};
    if (mix.moisture() > usual.high + 0.05)
      page_.caution(w_.text("compost.too-wet", values));
    else if (mix.moisture() < usual.low - 0.05)
      page_.text(w_.text("compost.add-water", values));
    else
      page_.text(w_.text(
          mix.moisture() < usual.value - 0.5 ? "compost.wet-enough-more" : "compost.wet-enough",
          values));
    page_.text(w_.text("compost.squeeze"));
  }

  void volume() {
    if (!worked_.litres) return void(page_.text(w_.text("compost.volume-unknown")));
    const double least = session_.data.constant("compost-heap-least").value;
    const Values values{{"litres", Decimal{*worked_.litres, 0}},
                        {"least", Decimal{least, 0}},
                        {"lacking", Decimal{least - *worked_.litres, 0}},
                        {"times", Decimal{least / *worked_.litres, 1}}};
    page_.text(w_.text("compost.volume", values));
    if (*worked_.litres < least - 0.5) page_.caution(w_.text("compost.heap-small", values));
  }

  const Session& session_;
  const words::Catalogue& w_;
  const AskedMix& asked_;
  const WorkedMix& worked_;
  sheet::Page page_;
};

}  // namespace

sheet::Page mix_page(const Session& session, const AskedMix& asked, const WorkedMix& worked) {
  return MixPage(session, asked, worked).made();
}

}  // namespace wheyfield::api
