// What `log` answers to an entry: how it was understood, in the garden's own units, and what is odd about it
// though it may be true (docs/formats/log.md, "Cautions").
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/garden.hpp"
#include "desk/message.hpp"

namespace sowtide::desk {

/// "picked s3 Beet, 5 plants, 1.9 lb": kind, stand, target and amounts of an entry, in the garden's units.
[[nodiscard]] std::string entry_text(const book::GardenDescription& garden, const crop::CropLibrary& library,
                                     const book::Event& event);

/// What does not fit what the log and the plan tell so far, though nothing forbids it: more plants taken than
/// stand there, more set out than were raised, more counted than were sown, far more picked than its ground
/// gives, a weight of far too little, more stored than was picked, more eaten than lies in store, far more or
/// fewer seeds than planned, a sowing far from its day, work before its stand began or long after the last
/// that is known of it, work on a stand that is over, ground on which another stands; and how shoots of
/// planting pieces were taken. `before` are the entries without this one.
/// Cost: a fold of `before`; where planting pieces are counted, a copy of it and a second fold.
[[nodiscard]] std::vector<Message> entry_cautions(const book::GardenDescription& garden,
                                                  const crop::CropLibrary& library,
                                                  const std::vector<book::Event>& before,
                                                  const book::Event& event);

/// Whether an entry's day has not come yet, by more than the day that clocks of other time zones are ahead:
/// what is logged was done.
[[nodiscard]] bool lies_ahead(const book::Event& event, base::Date today);

/// The caution that an entry's day lies ahead; nothing where it does not.
[[nodiscard]] std::optional<Message> caution_of_day_ahead(const book::Event& event, base::Date today);

/// Cautions of an entry in English; days of another year than the latest that is spoken of come with their
/// year.
[[nodiscard]] std::vector<std::string> caution_texts(const std::vector<Message>& cautions,
                                                     const book::Event& event, Units units);

}  // namespace sowtide::desk
