#include "api/group_answer.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

double from_thousandths(std::int64_t n) { return static_cast<double>(n) / 1000.0; }

std::string currency_of(const Session& session) {
  const auto& season = session.facts.of("season");
  return season.empty() ? "" : journal::text_in(season.front().body, "currency");
}

std::string group_money_text(const Session& session, quantity::Money money) {
  const words::Catalogue& w = session.words;
  const words::Decimal amount{money.amount(), 3};
  const std::string currency = currency_of(session);
  if (currency.empty()) return w.text("group.money", {{"amount", amount}});
  return w.text("money", {{"amount", amount}, {"currency", currency}});
}

}  // namespace

std::string list_text(const std::vector<std::string>& parts) {
  std::string list;
  for (const std::string& part : parts) list += (list.empty() ? "" : ", ") + part;
  return list;
}

Json paid_json(const group::Paid& paid) {
  Json kind = Json::array();
  for (const auto& [what, thousandths] : paid.kind)
    kind.push_back(
        {{"what", what.first}, {"amount", from_thousandths(thousandths)}, {"unit", what.second}});
  return {{"money", paid.money.amount()}, {"kind", std::move(kind)}};
}

std::string paid_text(const Session& session, const group::Paid& paid) {
  const words::Catalogue& w = session.words;
  std::vector<std::string> parts;
  if (!(paid.money == quantity::Money())) parts.push_back(group_money_text(session, paid.money));
  for (const auto& [what, thousandths] : paid.kind) {
    const words::Decimal amount{from_thousandths(thousandths), 3};
    const std::string shown =
        what.second.empty() ? w.number(amount) : w.number(amount) + " " + what.second;
    parts.push_back(w.text("group.amount-of", {{"amount", shown}, {"what", what.first}}));
  }
  return parts.empty() ? w.text("group.nothing-paid") : list_text(parts);
}

std::string person_text(const Session& session, const std::string& member,
                        const std::string& farm) {
  const words::Catalogue& w = session.words;
  if (member.empty()) return w.text("group.who-farm", {{"farm", farm}});
  if (farm.empty()) return w.text("group.who-member", {{"member", member}});
  return w.text("group.who-both", {{"member", member}, {"farm", farm}});
}

}  // namespace wheyfield::api
