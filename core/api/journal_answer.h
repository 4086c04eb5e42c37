// What the actions of the journal share: their declared fields, and events in a reader's words.
#pragma once

#include <string>

#include "api/fields.h"
#include "api/session.h"
#include "sheet/page.h"

namespace wheyfield::api {

const Fields& journal_add_fields();
const Fields& journal_answer_fields();
const Fields& journal_compose_fields();
const Fields& journal_forget_fields();
const Fields& journal_list_fields();
const Fields& journal_lost_fields();
const Fields& journal_pack_fields();
const Fields& journal_rows_fields();
const Fields& journal_split_fields();
const Fields& journal_strike_fields();
const Fields& journal_table_fields();
const Fields& journal_unpack_fields();

// "reading", "pH 4.0, smell clean-sour": the kind and the members of an event in words. A kind or
// member without a word shows as it is written.
std::string kind_words(const Session& session, const std::string& kind);
std::string body_words(const Session& session, const journal::Event& event);

// {id, on, device, kind, about, says, counts}: an event for a list.
Json event_row(const Session& session, const journal::Event& event);

// {code, about, name, text, choices: [event rows]}.
// What a note says in its author's own words, where a name may stand; "" when nothing.
std::string remark_in(const journal::Event& event);

Json question_json(const Session& session, const journal::Question& question);

}  // namespace wheyfield::api
