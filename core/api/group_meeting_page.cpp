#include <algorithm>

#include "api/group_answer.h"
#include "api/journal_answer.h"

namespace wheyfield::api {
namespace {

using sheet::Block;
using sheet::Page;
using words::Decimal;
using words::Values;

// Beside what the plan says of its work: what whoever takes serum home must know.
constexpr const char* serum_cautions[] = {"label-not-food", "fresh-same-day", "wear",
                                          "leaves-eaten-raw", "dressed-seed-never"};

void add_block(Page& page, const Block& block) {
  switch (block.kind) {
    case Block::Kind::heading:
      page.heading(block.text);
      break;
    case Block::Kind::text:
      page.text(block.text);
      break;
    case Block::Kind::caution:
      page.caution(block.text);
      break;
    case Block::Kind::list:
      page.list(block.items);
      break;
    case Block::Kind::table:
      page.table(block.columns, block.rows);
      break;
  }
}

class MeetingWriter {
 public:
  MeetingWriter(const Session& session, const GroupMeeting& meeting)
      : session_(session), m_(meeting), w_(session.words) {}

  Page page() const {
    Page page("group-meeting-" + m_.on.iso(),
              w_.text("group.meeting-title", {{"day", w_.long_date(m_.on)}}));
    planned_part(page);
    serum(page);
    missed(page);
    duties(page);
    money(page);
    people(page);
    questions(page);
    boxes(page);
    page.heading(w_.text("group.anything"));
    page.text(w_.text("group.anything-line"));
    return page;
  }

 private:
  std::string litres(std::int64_t ml) const {
    return w_.number({static_cast<double>(ml) / 1000.0, 3});
  }

  // The plan's own page, as it stands.
  void planned_part(Page& page) const {
    if (!m_.plan) {
      page.text(w_.text(m_.season_told ? "group.nothing-planned" : "group.no-season"));
      return;
    }
    for (const Block& block : m_.plan->page.blocks()) add_block(page, block);
  }

  bool serum_goes_out() const {
    const bool due = m_.plan && !m_.plan->fields["shares"].empty();
    return due || !m_.products.empty();
  }

  void serum(Page& page) const {
    if (!m_.products.empty()) page.heading(w_.text("group.serum"));
    for (const group::HandOut& one : m_.products) {
      Values values{{"product", product_words(one.product)}, {"had", litres(one.had_ml)}};
      values.insert_or_assign("made", litres(one.made_ml));
      values.insert_or_assign("out", litres(one.handed_out_ml));
      values.insert_or_assign("left", litres(std::max<std::int64_t>(0, one.left_ml())));
      values.insert_or_assign("above", litres(one.above_ml()));
      page.text(w_.text(one.above_ml() > 0 ? "group.above-made" : "group.in-hand", values));
      values.insert_or_assign("spoiled", litres(one.spoiled_ml));
      if (one.spoiled_ml > 0) page.text(w_.text("group.of-lost-batches", values));
      if (!one.unread.empty()) page.text(w_.text("group.unread-notes", {{"n", one.unread.size()}}));
    }
    for (const std::string& batch : m_.spoiled)
      page.caution(w_.text("caution.batch-lost", {{"batch", batch}}));
    not_enough(page);
    if (serum_goes_out()) cautions(page);
  }

  // When the notes know of less serum than the plan hands out today.
  void not_enough(Page& page) const {
    if (!m_.plan) return;
    std::int64_t due = 0;
    for (const Json& share : m_.plan->fields["shares"])
      due += share["serum_ml"].get<std::int64_t>() - share["short_ml"].get<std::int64_t>();
    std::int64_t left = 0;
    for (const group::HandOut& one : m_.products)
      if (one.product == "serum") left = std::max<std::int64_t>(0, one.left_ml());
    if (m_.products.empty() || due <= left) return;
    page.text(w_.text("group.not-enough", {{"left", litres(left)}, {"due", litres(due)}}));
  }

  std::string product_words(const std::string& product) const {
    const std::string key = "item." + product;
    return w_.has(key) ? w_.text(key) : product;
  }

  void cautions(Page& page) const {
    for (const char* id : serum_cautions) {
      const std::string brief = "brief." + std::string(id);
      const std::string text = w_.text(w_.has(brief) ? brief : "caution." + std::string(id));
      const auto& blocks = page.blocks();
      const bool said = std::any_of(blocks.begin(), blocks.end(),
                                    [&](const Block& block) { return block.text == text; });
      if (!said) page.caution(text);
    }
  }

  // Serum whose use is over by today is not handed over.
  std::string missed_line(const Missed& one) const {
    const bool over = !one.send_by.empty() && one.send_by < m_.on.iso();
    Values values{{"who", person_text(session_, one.who.member, one.who.farm)}, {"day", *m_.last}};
    values.insert_or_assign("ml", Decimal{static_cast<double>(one.kept_ml), 0});
    if (const auto by = calendar::parse_date(one.send_by)) values.insert_or_assign("by", *by);
    return w_.text(one.kept_ml == 0 ? "group.missed-last"
                   : over           ? "group.missed-over"
                                    : "group.missed-waits",
                   values);
  }

  void missed(Page& page) const {
    if (m_.missed.empty() && m_.absent_twice.empty()) return;
    page.heading(w_.text("group.missed"));
    std::vector<std::string> lines;
    for (const Missed& one : m_.missed) lines.push_back(missed_line(one));
    for (const std::string& code : m_.absent_twice)
      lines.push_back(w_.text("group.absent-twice", {{"member", code}}));
    page.list(std::move(lines));
  }

  void duties(Page& page) const {
    page.heading(w_.text("group.duties"));
    if (m_.duties.empty()) page.text(w_.text("group.no-duties"));
    std::vector<std::string> lines;
    for (const group::Duty& duty : m_.duties)
      lines.push_back(w_.text("group.duty", {{"duty", duty.duty}, {"member", duty.member}}));
    page.list(std::move(lines));
  }

  void money(Page& page) const {
    page.heading(w_.text("group.paid"));
    if (m_.last)
      page.text(w_.text("group.paid-since", {{"day", *m_.last},
                                             {"in", paid_text(session_, m_.since.all.in)},
                                             {"out", paid_text(session_, m_.since.all.out)}}));
    page.text(w_.text("group.paid-in-all", {{"in", paid_text(session_, m_.in_all.all.in)},
                                            {"out", paid_text(session_, m_.in_all.all.out)}}));
    if (const std::size_t n = m_.in_all.unread.size(); n > 0)
      page.text(w_.text("group.unread-notes", {{"n", n}}));
  }

  void people(Page& page) const {
    if (m_.joined.empty() && m_.left.empty() && m_.visits_due.empty()) return;
    page.heading(w_.text("group.people"));
    if (!m_.joined.empty()) page.text(w_.text("group.joined", {{"members", list_text(m_.joined)}}));
    if (!m_.left.empty()) page.text(w_.text("group.left", {{"members", list_text(m_.left)}}));
    if (!m_.visits_due.empty())
      page.text(w_.text("group.visits-due", {{"farms", list_text(m_.visits_due)}}));
  }

  void questions(Page& page) const {
    const auto& open = session_.facts.questions;
    if (open.empty()) return;
    constexpr std::size_t shown = 5;
    page.heading(w_.text("journal.questions-title"));
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < std::min(shown, open.size()); ++i)
      lines.push_back(question_json(session_, open[i])["text"]);
    page.list(std::move(lines));
    if (open.size() > shown)
      page.text(w_.text("group.more-questions", {{"n", open.size() - shown}}));
  }

  void boxes(Page& page) const {
    page.heading(w_.text("group.came"));
    if (m_.list.empty()) page.text(w_.text("group.nobody-noted"));
    std::vector<std::vector<std::string>> rows;
    for (const group::Away& one : m_.list)
      rows.push_back({one.member.empty() ? "-" : one.member, one.farm.empty() ? "-" : one.farm,
                      "[  ]", "[  ]"});
    page.table({{w_.text("col.group-member"), true},
                {w_.text("col.farm"), true},
                {w_.text("col.came"), false},
                {w_.text("col.got-share"), false}},
               std::move(rows));
  }

  const Session& session_;
  const GroupMeeting& m_;
  const words::Catalogue& w_;
};

}  // namespace

Page group_meeting_page(const Session& session, const GroupMeeting& meeting) {
  return MeetingWriter(session, meeting).page();
}

}  // namespace wheyfield::api
