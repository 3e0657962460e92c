// What the program says (base/message.hpp) in English, for the command line and beside the phrases of the
// answers.
#pragma once

#include <string>
#include <vector>

#include "base/message.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {

using base::Message;

/// The phrase in English, in the given units; days of another year than that of `today` with their year. A
/// key that is not known, or one of its values missing, is a broken invariant (std::logic_error).
[[nodiscard]] std::string message_text(const Message& message, Units units, base::Date today);

/// Phrases one after the other, parted by "; ".
[[nodiscard]] std::string messages_text(const std::vector<Message>& messages, Units units, base::Date today);

/// The same as a sentence: its first letter a capital one, a full stop at its end.
[[nodiscard]] std::string sentence_text(const std::vector<Message>& messages, Units units, base::Date today);

}  // namespace sowtide::desk
