#include "desk/message.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <map>
#include <stdexcept>
#include <string_view>

namespace sowtide::desk {
namespace {

/// The values of one phrase, each as English says it.
class Values {
 public:
  Values(const Message& message, Units units, base::Date today)
      : message_(message), units_(units), today_(today) {}

  [[nodiscard]] double number(std::string_view name) const { return std::get<double>(value(name)); }
  [[nodiscard]] const std::string& word(std::string_view name) const {
    return std::get<std::string>(value(name));
  }
  [[nodiscard]] bool has(std::string_view name) const { return find(name) != nullptr; }
  [[nodiscard]] std::string count(std::string_view name) const { return fmt::format("{:.0f}", number(name)); }
  [[nodiscard]] std::string servings() const {
    return fmt::format("{:.1f} servings", number("servings"));
  }
  /// "1 clump", "3 clumps": so many of what `one` is called.
  [[nodiscard]] std::string counted(std::string_view name, std::string_view one) const {
    return desk::counted(std::lround(number(name)), one);
  }
  [[nodiscard]] std::string clumps(std::string_view name) const { return counted(name, "clump"); }
  [[nodiscard]] std::string length(std::string_view name) const { return length_text(number(name), units_); }
  [[nodiscard]] std::string share(std::string_view name) const { return percent_text(number(name)); }
  [[nodiscard]] std::string weight(std::string_view name) const { return weight_text(number(name), units_); }
  [[nodiscard]] std::pair<std::string, std::string> stretch() const {
    return stretch_texts(number("from_m"), number("to_m"), units_);
  }
  [[nodiscard]] std::string spacing(std::string_view name) const {
    return spacing_text(number(name), units_);
  }
  [[nodiscard]] std::string depth(std::string_view name) const { return depth_text(number(name), units_); }
  [[nodiscard]] std::string warmth(std::string_view name) const {
    return temperature_text(number(name), units_);
  }
  [[nodiscard]] std::string difference(std::string_view name) const {
    return temperature_difference_text(number(name), units_);
  }
  [[nodiscard]] std::string day(std::string_view name) const {
    return date_text(std::get<base::Date>(value(name)), units_, today_);
  }
  [[nodiscard]] std::string days_between() const {
    const std::string from = day("from");
    const std::string to = day("to");
    return from == to ? from : from + " to " + to;
  }

 private:
  [[nodiscard]] const Message::Value* find(std::string_view name) const {
    for (const auto& [own, value] : message_.values) {
      if (own == name) return &value;
    }
    return nullptr;
  }
  [[nodiscard]] const Message::Value& value(std::string_view name) const {
    if (const Message::Value* found = find(name)) return *found;
    throw std::logic_error(fmt::format("the phrase {} lacks its {}", message_.key, name));
  }

  const Message& message_;
  Units units_;
  base::Date today_;
};

using Phrase = std::function<std::string(const Values&)>;
using Phrases = std::map<std::string_view, Phrase>;

std::string seeds_each(const Values& v) {
  return fmt::format("{} each, {} deep", v.counted("seeds", "seed"), v.depth("depth_mm"));
}

/// Of more than one, how far they stand from each other: " 23 cm apart".
std::string apart(const Values& v, std::string_view count) {
  return v.number(count) < 1.5 ? std::string() : fmt::format(" {} apart", v.spacing("spacing_mm"));
}

std::string_view plural(const Values& v, std::string_view name) {
  return v.number(name) == 1.0 ? "" : "s";
}

/// "3 weeks", and of one "week": what is said after "the last" and "every".
std::string weeks_or_the_week(const Values& v, std::string_view name) {
  return v.number(name) < 1.5 ? std::string("week") : v.counted(name, "week");
}

std::string weights_between(const Values& v) {
  return v.weight("low_g") + " to " + v.weight("high_g");
}

/// "over 12 weeks from 1 Nov": how a stand is pulled, by the names of its weeks and of their first day.
std::string pulled_text(const Values& v, const char* weeks, const char* from) {
  if (v.number(weeks) == 0.0) return "as each is ready";
  return fmt::format("over {} week{} {}", v.count(weeks), plural(v, weeks),
                     v.has(from) ? "from " + v.day(from) : "once ready");
}

std::string cut_text(const Values& v, std::string_view more) {
  return fmt::format(
      "A cut of half the leaf takes {}; with what grows again that is {} {} in three weeks than leaving it.",
      v.weight("now_g"), v.weight("change_g"), more);
}

/// Where what is taken whole goes.
std::string stored_in(const Values& v) {
  const std::string& place = v.word("place");
  return place == "fridge"    ? "in the refrigerator"
         : place == "kitchen" ? "in the kitchen, at room temperature"
                              : "in the cool store";
}

// Michigan State University Extension, Preserving Food Safely 01600049 (1997): kale, chard, spinach, mustard
// and turnip greens 2 minutes in boiling water, collards 3.
constexpr std::string_view kBlanching =
    "blanched for 2 minutes, collards for 3: Michigan State University Extension";

Phrases places() {
  return {
      {"stretch",
       [](const Values& v) {
         const auto [from, to] = v.stretch();
         return fmt::format("{}, {} to {}", v.word("bed"), from, to);
       }},
      {"named-place", [](const Values& v) { return v.word("name"); }},
      {"a-tray", [](const Values&) { return std::string("tray"); }},
      {"store",
       [](const Values& v) {
         const std::string& place = v.word("place");
         return place == "fridge"    ? std::string("in the refrigerator")
                : place == "kitchen" ? std::string("in the kitchen, at room temperature")
                                     : std::string("in the best place for it");
       }},
  };
}

Phrases amounts() {
  return {
      {"sow-cells",
       [](const Values& v) {
         return fmt::format("{} cell{}, {}", v.count("cells"), plural(v, "cells"), seeds_each(v));
       }},
      {"sow-places",
       [](const Values& v) {
         return fmt::format("{}{}, {}", v.counted("places", "place"), apart(v, "places"), seeds_each(v));
       }},
      {"plant-places",
       [](const Values& v) {
         return fmt::format("{}{}, one piece each, {} deep", v.counted("places", "place"), apart(v, "places"),
                            v.depth("depth_mm"));
       }},
      {"plant-cells",
       [](const Values& v) {
         return fmt::format("{} cell{}, one rooted slip or piece each", v.count("cells"), plural(v, "cells"));
       }},
      {"sow-tray-cells",
       [](const Values& v) {
         return fmt::format("{} cell{}, {} seed{} each", v.count("cells"), plural(v, "cells"),
                            v.count("seeds"), plural(v, "seeds"));
       }},
      {"pot-on",
       [](const Values& v) { return fmt::format("{} into {}", v.count("cells"), v.spacing("width_mm")); }},
      {"look-and-count", [](const Values&) { return std::string("look for seedlings and count them"); }},
      {"look-and-take-off-mat",
       [](const Values&) {
         return std::string("look for seedlings, count them and take what is up off the mat");
       }},
      {"look-or-sow",
       [](const Values& v) {
         return fmt::format("look; if nothing shows, {} again", v.counted("seeds", "seed"));
       }},
      {"look-for-shoots", [](const Values&) { return std::string("look for shoots and count them"); }},
      {"look-or-plant",
       [](const Values& v) {
         return fmt::format("look; if nothing shows, plant {} piece{} again", v.count("pieces"),
                            plural(v, "pieces"));
       }},
      {"look-if-dead",
       [](const Values&) { return std::string("look; log what is gone, and sow again or buy plants"); }},
      {"look-if-planted-dead",
       [](const Values&) { return std::string("look; log what is gone, and plant again"); }},
      {"look-or-buy", [](const Values&) { return std::string("look; log what is gone, and buy plants"); }},
      {"look-or-resow", [](const Values&) { return std::string("look; log what is gone, and sow again"); }},
      {"give-place", [](const Values&) { return std::string("give the place to another crop"); }},
      {"look-and-clear", [](const Values&) { return std::string("look, and clear the place"); }},
      {"compost-or-try", [](const Values&) { return std::string("compost them, or set a few out to try"); }},
      {"look-or-leave",
       [](const Values&) { return std::string("look; if nothing shows, give the place to another crop"); }},
      {"harden",
       [](const Values& v) {
         return fmt::format("{} day{} outside, longer each day", v.count("days"), plural(v, "days"));
       }},
      {"set-clumps", [](const Values& v) { return v.clumps("count") + apart(v, "count"); }},
      {"set-plants", [](const Values& v) { return v.counted("count", "plant") + apart(v, "count"); }},
      {"buy-plants",
       [](const Values& v) {
         return fmt::format("buy {} and set {} out{}", v.counted("count", "plant"),
                            v.number("count") < 1.5 ? "it" : "them", apart(v, "count"));
       }},
      {"leave",
       [](const Values& v) {
         return fmt::format("leave {} in each place, {} apart", v.count("plants"), v.spacing("spacing_mm"));
       }},
      {"pick-about",
       [](const Values& v) {
         return fmt::format("about {} in seven days ({} to {})", v.weight("middle_g"), v.weight("low_g"),
                            v.weight("high_g"));
       }},
      {"pick-perhaps",
       [](const Values& v) {
         return fmt::format(
             "in seven days something to pick in {} of the years: about {} then, seldom over {}",
             v.share("chance_share"), v.weight("middle_g"), v.weight("high_g"));
       }},
      {"pull-all", [](const Values& v) { return fmt::format("all of it, about {}", v.weight("weight_g")); }},
      {"pull-largest",
       [](const Values& v) {
         return v.number("plants") < 1.5
                    ? fmt::format("the largest one, about {}; the others grow on", v.weight("weight_g"))
                    : fmt::format("the {} largest, about {}; the others grow on", v.count("plants"),
                                  v.weight("weight_g"));
       }},
      {"pull-one-of-few",
       [](const Values& v) {
         return fmt::format("the largest one, about {}, unless one was taken in the last {}",
                            v.weight("weight_g"), weeks_or_the_week(v, "weeks"));
       }},
      {"pull-largest-each",
       [](const Values& v) {
         return fmt::format("the largest of every clump, about {}; the others grow on", v.weight("weight_g"));
       }},
      {"may-wait",
       [](const Values& v) {
         return fmt::format("about {} by now; {} week{} more add{} about {}", v.weight("weight_g"),
                            v.count("weeks"), plural(v, "weeks"), v.number("weeks") < 1.5 ? "s" : "",
                            v.weight("gain_g"));
       }},
      {"lift-and-store",
       [](const Values& v) {
         return fmt::format("lift all of it, about {}, and store it {}, where it keeps until about {}",
                            v.weight("weight_g"), stored_in(v), v.day("until"));
       }},
      {"take-and-freeze",
       [](const Values& v) {
         return fmt::format("all of it, about {}, to eat or to freeze ({}), or cover it on cold nights",
                            v.weight("weight_g"), kBlanching);
       }},
      {"take-or-cover",
       [](const Values& v) {
         return fmt::format("all of it, about {} ({} it keeps until about {}), or cover it on cold nights",
                            v.weight("weight_g"), stored_in(v), v.day("until"));
       }},
      {"pick-ready", [](const Values&) { return std::string("what is ready"); }},
      {"clear", [](const Values&) { return std::string("clear the place"); }},
      {"cover", [](const Values&) { return std::string("cover on cold nights"); }},
      {"look-over",
       [](const Values& v) {
         return fmt::format("{}: look it over, eat what is good and discard the rest", v.weight("weight_g"));
       }},
      {"weight", [](const Values& v) { return v.weight("weight_g"); }},
  };
}

Phrases reasons() {
  return {
      {"half-up", [](const Values& v) { return "half of it shows " + v.days_between(); }},
      {"first-pick",
       [](const Values& v) {
         return fmt::format("first pick {} (8 years in 10); worth having in {} of the weather years",
                            v.days_between(), v.share("success_share"));
       }},
      {"picked-from",
       [](const Values& v) {
         return fmt::format(
             "picked from {} on, the plan's day (ready {} in 8 years of 10); worth having in {} of the "
             "weather years",
             v.day("day"), v.days_between(), v.share("success_share"));
       }},
      {"no-harvest",
       [](const Values&) {
         return std::string("no harvest in sight in any of the weather years: think again before sowing");
       }},
      {"missed",
       [](const Values& v) {
         return fmt::format("missed by {} day{}: planning again finds what still makes sense",
                            v.count("days"), plural(v, "days"));
       }},
      {"tray-too-late",
       [](const Values& v) {
         return fmt::format(
             "overgrown in the tray or too late for the season: set out now it brings a harvest worth having "
             "in {} of the weather years",
             v.share("success_share"));
       }},
      {"likely-killed",
       [](const Values& v) {
         return fmt::format("the night of {} on {} has likely killed it", v.warmth("night_c"), v.day("day"));
       }},
      {"stand-over", [](const Values& v) { return "over since " + v.day("day"); }},
      {"judged-as-set-out",
       [](const Values& v) {
         return "By the log it stands in its tray; judged as set out on " + v.day("day") + ".";
       }},
      {"past-eating", [](const Values& v) { return "likely past eating since " + v.day("day"); }},
      {"to-set-out", [](const Values& v) { return "to be set out about " + v.day("day"); }},
      {"fit-to-set-out", [](const Values& v) { return "strong enough and mild enough " + v.days_between(); }},
      {"harden-bought",
       [](const Values& v) {
         return fmt::format("plants from a warm house stand outside by day for {} day{} first",
                            v.count("days"), plural(v, "days"));
       }},
      {"crowded",
       [](const Values& v) {
         return fmt::format("about {:.1f} seedlings stand in each place; crowded ones stay small",
                            v.number("seedlings"));
       }},
      {"ready", [](const Values& v) { return fmt::format("ready with {} chance", v.share("chance_share")); }},
      {"kitchen-short",
       [](const Values& v) { return fmt::format("the kitchen lacks {} this week", v.weight("short_g")); }},
      {"others-grow-on",
       [](const Values&) { return std::string("the largest are large enough, and the others grow on"); }},
      {"waiting-adds-little",
       [](const Values&) { return std::string("waiting adds little, or costs some"); }},
      {"frost-by-then",
       [](const Values& v) {
         return fmt::format("in {} of {} years frost has ended it within {}", v.count("lost_years"),
                            v.count("years"), v.counted("weeks", "week"));
       }},
      {"past", [](const Values& v) { return "past its time since " + v.day("day"); }},
      {"killing-night",
       [](const Values& v) {
         return fmt::format(
             "a night of {} or colder, which kills half of it, comes within {} in {} of the weather "
             "years",
             v.warmth("night_c"), v.counted("days", "day"), v.share("chance_share"));
       }},
      {"too-little-sun",
       [](const Values& v) {
         return fmt::format(
             "it needs {} hours of direct sun a day or more, and {} has less than {}: it will give less, and later",
             v.count("needed_h"), v.word("bed"), v.count("less_than_h"));
       }},
      {"in-store",
       [](const Values& v) {
         return fmt::format("in store since {}; keeps until about {}", v.day("since"), v.day("until"));
       }},
      {"kept-until",
       [](const Values& v) {
         return fmt::format("in store since {}; kept until about {}, which is past", v.day("since"),
                            v.day("until"));
       }},
      {"heat-near-water",
       [](const Values&) {
         return std::string(
             "Electric heat near water: follow the maker's instructions and use a residual-current device.");
       }},
  };
}

std::string first_pick_about(const Values& v) {
  return v.has("first_pick") ? ", first pick about " + v.day("first_pick") : "";
}

/// Of sowings that are awaited.
Phrases waits() {
  return {
      {"should-be-up",
       [](const Values& v) {
         return fmt::format("should be up since {}: in 9 of 10 cases half would have shown by then. Look",
                            v.day("by"));
       }},
      {"none-came", [](const Values& v) { return fmt::format("nothing showed on {}", v.day("day")); }},
      {"place-taken",
       [](const Values& v) {
         return fmt::format(
             "its place is taken by {} ({}), which stands there until about {}: move this one (sowtide stand "
             "GARDEN move) "
             "or plan again",
             v.word("stand"), v.word("crop_name"), v.day("until"));
       }},
      {"none-left",
       [](const Values& v) { return fmt::format("nothing was left by the count of {}", v.day("day")); }},
      {"buy-again",
       [](const Values& v) {
         return fmt::format(
             "plants that are bought may be set out until about {} (set out today they bring a harvest worth "
             "having in "
             "{} of the years)",
             v.day("by"), v.share("success_share"));
       }},
      {"next-days-to-buy",
       [](const Values& v) {
         return fmt::format("the next days to set out bought plants here are {}", v.days_between());
       }},
      {"too-late-to-buy",
       [](const Values&) { return std::string("too late to set out bought plants in its place"); }},
      {"off-the-mat", [](const Values&) { return std::string("take what is up off the mat"); }},
      {"should-show",
       [](const Values& v) {
         return fmt::format("half should have shown by {} in 9 of 10 cases ({} by today)", v.day("by"),
                            v.share("today_share"));
       }},
      {"nothing-yet", [](const Values&) { return std::string("nothing to do yet"); }},
      {"too-late-again",
       [](const Values& v) {
         return fmt::format(
             "sown again today it brings a harvest worth having in only {} of the years: too late",
             v.share("success_share"));
       }},
      {"next-days-again",
       [](const Values& v) {
         return fmt::format("too late to sow it again now: its next days here are {}", v.days_between());
       }},
      {"too-late-to-plant-again",
       [](const Values& v) {
         return fmt::format(
             "planted again today it brings a harvest worth having in only {} of the years: too late",
             v.share("success_share"));
       }},
      {"next-days-to-plant-again",
       [](const Values& v) {
         return fmt::format("too late to plant it again now: its next days here are {}", v.days_between());
       }},
      {"no-days-again",
       [](const Values&) {
         return std::string(
             "too late: by the windows no day of the year suits it here, so give the place to another crop");
       }},
      {"sow-again",
       [](const Values& v) {
         return fmt::format(
             "sow again by about {} (sown today it brings a harvest worth having in {} of the years{})",
             v.day("by"), v.share("success_share"), first_pick_about(v));
       }},
      {"plant-again",
       [](const Values& v) {
         return fmt::format(
             "plant again by about {} (planted today it brings a harvest worth having in {} of the years{})",
             v.day("by"), v.share("success_share"), first_pick_about(v));
       }},
  };
}

/// Of pulling now or waiting (stand/judge.hpp): whole sentences.
Phrases judgements() {
  return {
      {"ripe-by-today",
       [](const Values& v) { return fmt::format("About {} are ripe by today.", v.weight("now_g")); }},
      {"week-costs",
       [](const Values& v) {
         return fmt::format(
             "Left for a week, about {} less come in by then: what hangs longer grows coarse or drops.",
             v.weight("cost_g"));
       }},
      {"next-picking",
       [](const Values& v) {
         return fmt::format("The next picking is in {} day{}: about {} ({}).", v.count("days"),
                            plural(v, "days"), v.weight("middle_g"), weights_between(v));
       }},
      {"last-picking", [](const Values&) { return std::string("It is the last picking."); }},
      {"next-cut",
       [](const Values& v) {
         return fmt::format("It can be cut again in about {} day{}: {} ({}).", v.count("days"),
                            plural(v, "days"), v.weight("middle_g"), weights_between(v));
       }},
      {"is-past",
       [](const Values& v) {
         return fmt::format(
             "In {} of {} years {} has ended it before today: what is still good comes in now.",
             v.count("past_years"), v.count("years"), v.word("cause"));
       }},
      {"ripens-not", [](const Values&) { return std::string("Nothing ripens within three weeks."); }},
      {"ends-it",
       [](const Values& v) {
         return fmt::format("In {} of {} years {} ends it within {} week{}.", v.count("lost_years"),
                            v.count("years"), v.word("cause"), v.count("weeks"), plural(v, "weeks"));
       }},
      {"frost-will-have-ended",
       [](const Values& v) {
         return fmt::format("In {} of {} years frost has ended it within {}: take all of it now, about {}.",
                            v.count("lost_years"), v.count("years"), v.counted("weeks", "week"),
                            v.weight("now_g"));
       }},
      {"ends-before-eaten",
       [](const Values& v) {
         return fmt::format(
             "In {} of {} years {} ends it within {}, and the plan picks only {} by then: take all of it "
             "now, about "
             "{}, to eat or to store.",
             v.count("lost_years"), v.count("years"), v.word("cause"), v.counted("weeks", "week"),
             v.weight("planned_g"), v.weight("now_g"));
       }},
      {"good-until",
       [](const Values& v) {
         return fmt::format("From about {} on nothing good is likely left of it.", v.day("day"));
       }},
      {"store-in",
       [](const Values& v) {
         return fmt::format("Stored {} it keeps until about {}.", stored_in(v), v.day("until"));
       }},
      {"keeps-short",
       [](const Values& v) {
         return fmt::format("It keeps {} only until about {}; a cover on cold nights is the other way.",
                            stored_in(v), v.day("until"));
       }},
      {"greens-freeze",
       [](const Values&) {
         return fmt::format(
             "What is not eaten soon can be frozen ({}); a cover on cold nights is the other way.",
             kBlanching);
       }},
      {"kitchen-lacks",
       [](const Values& v) { return fmt::format("The kitchen lacks {} this week.", v.weight("short_g")); }},
      {"leaves-for-kitchen",
       [](const Values& v) {
         return fmt::format(
             "The week lacks {} of cooking greens: what may be taken of these leaves at once gives {} today "
             "and costs the "
             "roots {} in {} weeks.",
             v.weight("short_g"), v.weight("now_g"), v.weight("cost_g"), v.count("weeks"));
       }},
      {"next-loses",
       [](const Values& v) {
         return fmt::format("What comes next on this ground loses as much as {} for every week it waits{}.",
                            v.weight("week_g"), v.has("since") ? " from " + v.day("since") + " on" : "");
       }},
  };
}

Phrases judgements_of_size() {
  return {
      {"waiting-adds",
       [](const Values& v) {
         return fmt::format("Waiting {} week{} adds about {} ({}).", v.count("weeks"), plural(v, "weeks"),
                            v.weight("middle_g"), weights_between(v));
       }},
      {"largest-come-to",
       [](const Values& v) {
         return fmt::format(
             "The largest of every clump come to {}; the others gain {} from their light in two weeks.",
             v.weight("now_g"), v.weight("gain_g"));
       }},
      {"plan-pulls",
       [](const Values& v) {
         return fmt::format("The plan leaves it standing and picks it {}.",
                            pulled_text(v, "pull_weeks", "pull_from"));
       }},
      {"plan-pulls-one",
       [](const Values& v) {
         return fmt::format("The plan picks it {}: one of about {} every {}.",
                            pulled_text(v, "pull_weeks", "pull_from"), v.weight("plant_g"),
                            weeks_or_the_week(v, "each_weeks"));
       }},
      {"plan-pulls-now",
       [](const Values& v) {
         return fmt::format("The plan picks it {}: about {} in the next seven days ({}).",
                            pulled_text(v, "pull_weeks", "pull_from"), v.weight("middle_g"),
                            weights_between(v));
       }},
      {"plan-before-most",
       [](const Values& v) {
         return fmt::format(
             "Left whole it would be worth most in {}; the plan has it over all its weeks instead.",
             v.counted("weeks", "week"));
       }},
      {"outgrows-plan",
       [](const Values& v) {
         return fmt::format(
             "Within {} {} of the plants are over-size, more than the plan picks by then: take the largest "
             "now.",
             v.counted("weeks", "week"), v.share("over_share"));
       }},
      {"still-small",
       [](const Values& v) {
         return fmt::format(
             "Its day has come, but plants of {} are less than small ones, which weigh {}: they are left to "
             "grow.",
             v.weight("now_g"), v.weight("small_g"));
       }},
      {"largest-meet",
       [](const Values& v) {
         return v.number("plants") < 1.5
                    ? std::string("The largest one meets what the kitchen lacks.")
                    : fmt::format("{} of the largest meet what the kitchen lacks.", v.count("plants"));
       }},
      {"largest-in-part",
       [](const Values& v) {
         return v.number("plants") < 1.5
                    ? std::string(
                          "Only the one that is large already goes: the others bring far more by waiting.")
                    : fmt::format(
                          "Only the {} that are large already go: the others bring far more by waiting.",
                          v.count("plants"));
       }},
      {"plant-weighs",
       [](const Values& v) {
         return fmt::format("A plant weighs {} now and {} in a week ({}).", v.weight("now_g"),
                            v.weight("middle_g"), weights_between(v));
       }},
      {"sizes",
       [](const Values& v) {
         return fmt::format("{} of the plants are of the large size, {} beyond it, {} small, {} too small.",
                            v.share("large_share"), v.share("over_share"), v.share("small_share"), v.share("too_small_share"));
       }},
      {"cut-brings-more", [](const Values& v) { return cut_text(v, "more"); }},
      {"cut-brings-less", [](const Values& v) { return cut_text(v, "less"); }},
  };
}

/// Of what limits a plan (plan/notes.hpp).
Phrases plan_notes() {
  return {
      {"want-short",
       [](const Values& v) {
         return fmt::format("{}: the plan gives {} of the {} wanted", v.word("want"), v.share("met_share"),
                            v.weight("wanted_g"));
       }},
      {"no-week", [](const Values&) { return std::string("no week of the plan gives a harvest here"); }},
      {"no-week-often-enough",
       [](const Values& v) {
         return fmt::format("no week of the plan gives a harvest here often enough ({})", v.word("cause"));
       }},
      {"too-late-this-season",
       [](const Values& v) {
         return fmt::format(
             "it is too late for this season ({}), and the next one's harvest comes after the last "
             "week of the plan",
             v.word("cause"));
       }},
      {"harvest-after-plan",
       [](const Values&) { return std::string("its harvest would come after the last week of the plan"); }},
      {"no-tray-to-raise-it",
       [](const Values&) {
         return std::string(
             "it is not sown in place and the garden has no tray to raise it in: describe a tray, or say of "
             "the want that its plants are bought");
       }},
      {"no-bed", [](const Values&) { return std::string("the garden has no bed"); }},
      {"no-bed-for-it",
       [](const Values&) { return std::string("no bed has the sun or the width it needs"); }},
      {"no-cells-to-raise-it",
       [](const Values&) {
         return std::string(
             "no tray has the cells that one of it takes: describe a tray with more or larger cells, or say "
             "of the "
             "want that its plants are bought");
       }},
      {"not-ready-then",
       [](const Values&) {
         return std::string(
             "nothing can be ready, or still be good in store, in most of the weeks it is short");
       }},
      {"beds-taken", [](const Values&) { return std::string("beds are taken by what counts more"); }},
      {"cells-taken",
       [](const Values&) { return std::string("the cells of the trays are taken by what counts more"); }},
      {"mat-taken",
       [](const Values&) { return std::string("the warm cells are taken by what counts more"); }},
      {"hours-taken",
       [](const Values&) { return std::string("it would take more work than a week has for it"); }},
      {"seed-to-be-bought", [](const Values&) { return std::string("seed would have to be bought for it"); }},
      {"more-comes-when-enough",
       [](const Values&) { return std::string("more of it would mostly come when there is enough"); }},
      {"only-small-stands-left",
       [](const Values&) {
         return std::string(
             "what room is left is too small, or too short of time, for a stand worth its trouble");
       }},
      {"weather-of-some-years",
       [](const Values&) { return std::string("most years have enough, and the weather of some does not"); }},
      {"packet-too-small",
       [](const Values& v) {
         return fmt::format("the packet of {} ({}) holds {}; the plan sows {}", v.word("crop_name"),
                            v.word("packet"), v.counted("seeds", "seed"), v.count("sown"));
       }},
      {"seed-to-buy",
       [](const Values& v) {
         return fmt::format("no packet of {} (the plan sows {})", v.word("crop_name"), v.count("sown"));
       }},
      {"seed-reckons-more",
       [](const Values&) {
         return std::string("`sowtide seed` reckons how much to buy, with age, losses and cold soil counted");
       }},
      {"weather-ends",
       [](const Values& v) {
         return fmt::format("the weather ahead covers only {} of the {} weeks asked for; the plan ends there",
                            v.count("weeks"), v.count("asked"));
       }},
      {"total-left-out",
       [](const Values& v) {
         return fmt::format("want {}: its last day lies outside the plan; the total is left out",
                            v.word("want"));
       }},
      {"choices-cut-short",
       [](const Values& v) {
         return fmt::format(
             "the time limit left time for {} of the {} sowings that could be looked at; give more for a "
             "better plan",
             v.count("seen"), v.count("of"));
       }},
      {"store-counted",
       [](const Values& v) {
         const std::string counted =
             fmt::format("{} of {} in store count for the table", v.weight("total_g"), v.word("crop_name"));
         if (!v.has("eat_by")) return fmt::format("{}, until {} at the latest", counted, v.day("to"));
         return fmt::format(
             "{}: about {} are still good on {}, the last day by which the store says to eat them, and what "
             "is sorted "
             "out good counts until {} at the latest",
             counted, v.weight("good_then_g"), v.day("eat_by"), v.day("to"));
       }},
      {"stand-without-bed",
       [](const Values& v) {
         return fmt::format("stand {} has no bed of this garden; it counts for the table, not for the room",
                            v.word("stand"));
       }},
      {"stand-beyond-plan",
       [](const Values& v) {
         return fmt::format(
             "stand {} begins after the weeks that this plan looks at; its place is kept, and nothing of it "
             "counts",
             v.word("stand"));
       }},
  };
}

std::string changed_text(const Values& v) {
  std::string text;
  const auto add = [&](std::string words) { text += (text.empty() ? "" : ", ") + std::move(words); };
  const auto days = [&](const char* name) { return v.count(name) + (v.number(name) == 1.0 ? " day" : " days"); };
  if (v.has("days_later")) add(fmt::format("sown {} later", days("days_later")));
  if (v.has("days_earlier")) add(fmt::format("sown {} earlier", days("days_earlier")));
  if (v.has("clumps")) add(fmt::format("{} instead of {}", v.clumps("clumps"), v.count("clumps_before")));
  if (v.has("bed")) add(fmt::format("in {} instead of {}", v.word("bed"), v.word("bed_before")));
  if (v.has("tray")) add(fmt::format("raised in {} instead of {}", v.word("tray"), v.word("tray_before")));
  if (v.has("pick_weeks")) {
    add(fmt::format("picked {} instead of {}", pulled_text(v, "pick_weeks", "pick_from"),
                    pulled_text(v, "pick_weeks_before", "pick_from_before")));
  }
  return fmt::format("{} {}: {}", v.word("crop_name"), v.word("stand"), text);
}

std::string stand_named(const Values& v) {
  return fmt::format("{} ({})", v.word("stand"), v.word("crop_name"));
}

Phrase warmth_apart(std::string_view what, std::string_view how) {
  return [=](const Values& v) {
    return fmt::format("{} is {} {} than the {} planned for", what, v.difference("by_k"), how,
                       v.warmth("planned_c"));
  };
}

/// Of beds that the plan leaves empty or little used.
Phrases plan_beds() {
  return {
      {"bed-unused",
       [](const Values& v) {
         return fmt::format("{} stays empty: nothing is planned there", v.word("bed"));
       }},
      {"bed-little-used",
       [](const Values& v) {
         return fmt::format("{} is used for {} of its ground and weeks only", v.word("bed"),
                            v.share("used_share"));
       }},
  };
}

/// Of what a new plan does otherwise than the one before, and why (plan/changes.hpp).
Phrases plan_changes() {
  return {
      {"stand-changed", changed_text},
      {"stand-left-out",
       [](const Values& v) {
         return fmt::format("{} {}: left out ({} on {} in {})", v.word("crop_name"), v.word("stand"),
                            v.clumps("clumps"), v.day("sow"), v.word("bed"));
       }},
      {"place-taken-meanwhile",
       [](const Values& v) {
         return fmt::format(
             "{}: left out ({} on {} in {}), since its place was taken while the plan was made",
             v.word("crop_name"), v.clumps("clumps"), v.day("sow"), v.word("bed"));
       }},
      {"no-longer-fits",
       [](const Values& v) {
         return fmt::format(
             "{}: left out ({} on {} in {}), since its bed, tray, packet or variety was changed while the "
             "plan was made",
             v.word("crop_name"), v.clumps("clumps"), v.day("sow"), v.word("bed"));
       }},
      {"stand-changed-meanwhile",
       [](const Values& v) {
         return fmt::format("{} {}: stays as it is, since it was begun or moved while the plan was made",
                            v.word("crop_name"), v.word("stand"));
       }},
      {"stand-new",
       [](const Values& v) {
         return fmt::format("{}: new, {} on {} in {}", v.word("crop_name"), v.clumps("clumps"), v.day("sow"),
                            v.word("bed"));
       }},
      {"bought-left-out",
       [](const Values& v) {
         return fmt::format("{} {}: left out ({} to buy for {} in {})", v.word("crop_name"), v.word("stand"),
                            v.count("clumps"), v.day("set_out"), v.word("bed"));
       }},
      {"bought-new",
       [](const Values& v) {
         return fmt::format("{}: new, {} to buy for {} in {}", v.word("crop_name"), v.count("clumps"),
                            v.day("set_out"), v.word("bed"));
       }},
      {"nobody-asks", [](const Values&) { return std::string("no want asks for it any more"); }},
      {"day-is-past", [](const Values&) { return std::string("its day to sow is past"); }},
      {"day-to-buy-is-past", [](const Values&) { return std::string("its day to buy is past"); }},
      {"bed-is-gone", [](const Values&) { return std::string("its bed is no longer there"); }},
      {"sowing-then-fails",
       [](const Values& v) {
         return fmt::format("begun on its old day it fails too often ({})", v.word("cause"));
       }},
      {"better-sowing-near", [](const Values&) { return std::string("another day is better in every way"); }},
      {"asked-in-other-weeks",
       [](const Values&) { return std::string("the wants ask for it in other weeks now"); }},
      {"ground-held-by",
       [](const Values& v) {
         const std::string until =
             v.has("until") ? fmt::format(", until {} in most years", v.day("until")) : "";
         return stand_named(v) + " holds its old ground then" + until;
       }},
      {"ground-goes-to",
       [](const Values& v) {
         return fmt::format("{} has its old ground now, and without that the table would lose {}",
                            stand_named(v), v.servings());
       }},
      {"stand-failed-since",
       [](const Values& v) {
         return fmt::format("since the last plan {} came to nothing (log of {})", stand_named(v),
                            v.day("on"));
       }},
      {"stand-fewer-since",
       [](const Values& v) {
         return fmt::format(
             "since the last plan {} was found to have {} of the plants planned, {} in all (log of {})",
             stand_named(v), v.count("plants"), v.count("planned"), v.day("on"));
       }},
      {"stand-over-since",
       [](const Values& v) {
         return fmt::format("since the last plan {} was picked to its end (log of {})", stand_named(v),
                            v.day("on"));
       }},
      {"ground-free-since",
       [](const Values& v) {
         return fmt::format("the ground of {} is free since {}", stand_named(v), v.day("on"));
       }},
      {"want-more-since",
       [](const Values& v) {
         return fmt::format("more {} is wanted than for the last plan", v.word("want"));
       }},
      {"want-less-since",
       [](const Values& v) {
         return fmt::format("less {} is wanted than for the last plan", v.word("want"));
       }},
      {"want-new-since",
       [](const Values& v) {
         return fmt::format("{} was not wanted yet for the last plan", v.word("want"));
       }},
      {"family-held-off-by",
       [](const Values& v) { return stand_named(v) + " is of its family, which must rest on that ground"; }},
      {"as-it-was-loses",
       [](const Values& v) { return fmt::format("as it was, the table would lose {} more", v.servings()); }},
      {"soil-colder-than-planned", warmth_apart("in the week of sowing the soil", "colder")},
      {"soil-warmer-than-planned", warmth_apart("in the week of sowing the soil", "warmer")},
      {"air-colder-than-planned", warmth_apart("in its first weeks the air", "colder")},
      {"air-warmer-than-planned", warmth_apart("in its first weeks the air", "warmer")},
      {"ground-serves-more",
       [](const Values&) {
         return std::string("its ground, cells or hours bring more with something else");
       }},
  };
}

/// Of why a stand of the plan is there, and of what more room would bring (plan/explain.hpp).
Phrases plan_reasons() {
  return {
      {"stand-brings",
       [](const Values& v) {
         return fmt::format("{} {} about {}, picked in the weeks of {}", v.clumps("clumps"),
                            v.number("clumps") == 1.0 ? "brings" : "bring", v.weight("total_g"), v.days_between());
       }},
      {"brings-nothing", [](const Values&) { return std::string("it brings nothing within the plan"); }},
      {"missed-without",
       [](const Values& v) { return fmt::format("without it the table would lose {}", v.servings()); }},
      {"earlier-costs",
       [](const Values& v) { return fmt::format("a week earlier would cost {}", v.servings()); }},
      {"earlier-brings",
       [](const Values& v) {
         return fmt::format("a week earlier would bring {} more if the place were free then", v.servings());
       }},
      {"one-more",
       [](const Values& v) { return fmt::format("one clump more would bring {}", v.servings()); }},
      {"one-more-brings-nothing",
       [](const Values&) { return std::string("one clump more would bring nothing worth naming"); }},
      {"one-fewer", [](const Values& v) { return fmt::format("one fewer would lose {}", v.servings()); }},
      {"earlier-is-past", [](const Values&) { return std::string("a week earlier is past"); }},
      {"earlier-is-none",
       [](const Values&) { return std::string("a week earlier is not worth trying here"); }},
      {"later-costs",
       [](const Values& v) { return fmt::format("a week later would cost {}", v.servings()); }},
      {"later-brings",
       [](const Values& v) {
         return fmt::format("a week later would bring {} more if the place were free then", v.servings());
       }},
      {"later-is-none", [](const Values&) { return std::string("a week later is not worth trying here"); }},
      {"bears-part-shade",
       [](const Values&) { return std::string("it bears part shade and leaves full sun to others"); }},
      {"full-sun-gives-more",
       [](const Values&) { return std::string("it bears part shade, and full sun gives more"); }},
      {"first-on-its-ground",
       [](const Values&) { return std::string("nothing of the plan stands on its ground before it"); }},
      {"needs-full-sun", [](const Values&) { return std::string("it needs full sun"); }},
      {"less-in-part-shade",
       [](const Values&) {
         return std::string("it wants full sun and gives less in part shade, as is reckoned");
       }},
      {"less-in-shade", [](const Values&) { return std::string("it gives less in shade, as is reckoned"); }},
      {"follows", [](const Values& v) { return fmt::format("it follows {} on its ground", stand_named(v)); }},
      {"follows-hungry",
       [](const Values& v) {
         return fmt::format("it follows {}, a hungry crop, and needs little itself", stand_named(v));
       }},
      {"follows-hungry-itself-hungry",
       [](const Values& v) {
         return fmt::format("it follows {}, and both are hungry: feed the ground between them", stand_named(v));
       }},
      {"succeeds",
       [](const Values& v) {
         return fmt::format("it succeeds in {} of the years", v.share("success_share"));
       }},
      {"goes-out",
       [](const Values& v) { return fmt::format("it is set out in the week of {}", v.day("week")); }},
      {"plants-to-buy",
       [](const Values& v) {
         return fmt::format("{} plant{} to buy, set out on {}", v.count("plants"), plural(v, "plants"),
                            v.day("set_out"));
       }},
      {"metre-in-sun",
       [](const Values& v) {
         return fmt::format("{} of bed in full sun, {} wide", v.length("length_m"), v.length("width_m"));
       }},
      {"metre-in-part-shade",
       [](const Values& v) {
         return fmt::format("{} of bed in part shade, {} wide", v.length("length_m"), v.length("width_m"));
       }},
      {"metre-in-shade",
       [](const Values& v) {
         return fmt::format("{} of bed in shade, {} wide", v.length("length_m"), v.length("width_m"));
       }},
      {"earlier-in-place",
       [](const Values& v) {
         return fmt::format("{} sown in place a week before {} (in the way then: {})", v.word("crop_name"),
                            v.day("sow"), v.word("cause"));
       }},
      {"earlier-in-tray",
       [](const Values& v) {
         return fmt::format("{} sown in {} a week before {} (in the way then: {})", v.word("crop_name"),
                            v.word("tray"), v.day("sow"), v.word("cause"));
       }},
      {"earlier-bought",
       [](const Values& v) {
         return fmt::format("{} bought and set out a week before {} (in the way then: {})",
                            v.word("crop_name"), v.day("set_out"), v.word("cause"));
       }},
      {"helps-want",
       [](const Values& v) { return fmt::format("{} more of {}", v.weight("weight_g"), v.word("want")); }},
      {"cells-of-tray",
       [](const Values& v) { return fmt::format("{} of {}", v.counted("cells", "cell"), v.word("tray")); }},
      {"cells-on-mat",
       [](const Values& v) {
         return fmt::format("room for {} more on the mat of {}", v.counted("cells", "cell"), v.word("tray"));
       }},
  };
}

/// What looks odd about an entry of the log.
Phrases log_cautions() {
  return {
      {"log-stand-over",
       [](const Values& v) {
         return fmt::format("by the log stand {} is over: all of it was picked or cleared", v.word("stand"));
       }},
      {"log-before-stand",
       [](const Values& v) {
         return fmt::format("{} lies before stand {} began, or is to begin, {}", v.day("day"),
                            v.word("stand"), v.day("first"));
       }},
      {"log-long-after",
       [](const Values& v) {
         return fmt::format("{} is {} days after the last day known of stand {}, {}", v.day("day"),
                            v.count("days"), v.word("stand"), v.day("last"));
       }},
      {"log-place-taken",
       [](const Values& v) {
         return fmt::format(
             "by the log {} ({}) stands in that place: log its end, or move the one that is elsewhere",
             v.word("other"), v.word("crop_name"));
       }},
      {"log-many-seeds",
       [](const Values& v) {
         return fmt::format("{}, where the plan has {}", v.counted("seeds", "seed"), v.count("planned"));
       }},
      {"log-few-seeds",
       [](const Values& v) {
         return fmt::format("{} seed{}, where the plan has {}", v.count("seeds"), plural(v, "seeds"),
                            v.count("planned"));
       }},
      {"log-no-seeds",
       [](const Values& v) {
         return fmt::format("no seeds, where the plan has {}: where nothing was sown no entry is needed",
                            v.count("planned"));
       }},
      {"log-many-pieces",
       [](const Values& v) {
         return fmt::format("{}, where the plan has {}", v.counted("pieces", "piece"), v.count("planned"));
       }},
      {"log-few-pieces",
       [](const Values& v) {
         return fmt::format("{} piece{}, where the plan has {}", v.count("pieces"), plural(v, "pieces"),
                            v.count("planned"));
       }},
      {"log-no-pieces",
       [](const Values& v) {
         return fmt::format("no pieces, where the plan has {}: where nothing was planted no entry is needed",
                            v.count("planned"));
       }},
      {"log-planted-before",
       [](const Values& v) {
         return fmt::format("stand {} was planted already on {}: the pieces of both add up", v.word("stand"),
                            v.day("day"));
       }},
      {"log-shoots",
       [](const Values& v) {
         return fmt::format("{} {} taken as {}: a piece sends up several, and no more were planted",
                            v.counted("shoots", "shoot"), v.number("shoots") < 1.5 ? "is" : "are",
                            v.counted("plants", "plant"));
       }},
      {"log-more-than-sown",
       [](const Values& v) {
         return fmt::format("{} plant{}, where by the log {} seed{} sown", v.count("plants"),
                            plural(v, "plants"), v.count("seeds"),
                            v.number("seeds") == 1.0 ? " was" : "s were");
       }},
      {"log-more-out-than-raised",
       [](const Values& v) {
         return fmt::format("{} plant{}, where by the log {} {} raised", v.count("plants"),
                            plural(v, "plants"), v.count("raised"),
                            v.number("raised") == 1.0 ? "was" : "were");
       }},
      {"log-more-out-than-planned",
       [](const Values& v) {
         return fmt::format("with this {} plant{} set out, where the plan has {}", v.count("plants"),
                            v.number("plants") == 1.0 ? " was" : "s were", v.count("planned"));
       }},
      {"log-much-for-ground",
       [](const Values& v) {
         return fmt::format("with this {} of stand {} were picked, and its ground gives hardly more than {}",
                            v.weight("picked_g"), v.word("stand"), v.weight("most_g"));
       }},
      {"log-little-for-plants",
       [](const Values& v) {
         return fmt::format("{} is little for {} plant{}: look at the weight once more", v.weight("picked_g"),
                            v.count("plants"), plural(v, "plants"));
       }},
      {"log-little-for-plants-unit",
       [](const Values& v) {
         return fmt::format("{} is little for {} plant{}: look at the weight and its unit once more",
                            v.weight("picked_g"), v.count("plants"), plural(v, "plants"));
       }},
      {"log-sown-before",
       [](const Values& v) {
         return fmt::format("stand {} was sown already on {}: the seeds of both add up", v.word("stand"),
                            v.day("day"));
       }},
      {"log-day-ahead",
       [](const Values& v) {
         return fmt::format(
             "its day lies {} day{} after {}, today by the clock of this machine: what is logged was done",
             v.count("days"), plural(v, "days"), v.day("today"));
       }},
      {"log-before-its-day",
       [](const Values& v) {
         return fmt::format("{} is {} day{} before the day planned, {}", v.day("day"), v.count("days"),
                            plural(v, "days"), v.day("planned_day"));
       }},
      {"log-after-its-day",
       [](const Values& v) {
         return fmt::format("{} is {} day{} after the day planned, {}", v.day("day"), v.count("days"),
                            plural(v, "days"), v.day("planned_day"));
       }},
      {"log-more-than-counted",
       [](const Values& v) {
         return fmt::format("{} plant{}, where by the log {} {} left of the {} counted", v.count("plants"),
                            plural(v, "plants"), v.count("left"), v.number("left") == 1.0 ? "is" : "are",
                            v.count("stood"));
       }},
      {"log-more-than-planned",
       [](const Values& v) {
         return fmt::format("{} plant{}, where by the log {} {} left of the {} planned", v.count("plants"),
                            plural(v, "plants"), v.count("left"), v.number("left") == 1.0 ? "is" : "are",
                            v.count("stood"));
       }},
      {"log-many-thinned",
       [](const Values& v) {
         return fmt::format("{} thinned in all, of {}: at most {} of the {} planned {} left",
                            v.counted("thinned", "seedling"), v.counted("seeds", "seed"), v.count("left"),
                            v.count("planned"), v.number("left") == 1.0 ? "is" : "are");
       }},
      {"log-diameter-unread",
       [](const Values& v) {
         return fmt::format(
             "a diameter tells no weight of {}, so it changes nothing: weigh one, or some together, instead",
             v.word("crop_name"));
       }},
      {"log-measured-early",
       [](const Values& v) {
         return fmt::format("{} is early for a measure: of stand {} hardly anything is up before {}",
                            v.day("day"), v.word("stand"), v.day("up"));
       }},
      {"log-measured-heavy",
       [](const Values& v) {
         return fmt::format(
             "{} a plant, where by the weather {} is much that day: look at the unit and the digits",
             v.weight("plant_g"), v.weight("likely_g"));
       }},
      {"log-greens-as-roots",
       [](const Values& v) {
         return fmt::format(
             "it speaks of leaves, and whole plants of {} are taken as pulled: for leaves alone the "
             "text is to begin with the word leaves (log … picked --leaves)",
             v.word("crop_name"));
       }},
      {"log-leaves-as-roots",
       [](const Values& v) {
         return fmt::format("it speaks of leaves, and whole plants of {} are taken as pulled",
                            v.word("crop_name"));
       }},
      {"log-stored-unpicked",
       [](const Values& v) {
         return fmt::format(
             "nothing was picked of stand {} by the log: log the picking too, or correct the stand",
             v.word("stand"));
       }},
      {"log-more-stored",
       [](const Values& v) {
         return fmt::format("with this {} of stand {} were stored, and {} picked", v.weight("stored_g"),
                            v.word("stand"), v.weight("picked_g"));
       }},
      {"log-nothing-in-store",
       [](const Values& v) {
         return fmt::format("nothing of stand {} lies in store that day, and the store stays as it is",
                            v.word("stand"));
       }},
      {"log-nothing-of-lot",
       [](const Values& v) {
         return fmt::format("nothing of the lot {} lies in store that day, and the store stays as it is",
                            v.word("lot"));
       }},
      {"log-little-in-store",
       [](const Values& v) {
         return fmt::format("only {} of stand {} lay in store", v.weight("there_g"), v.word("stand"));
       }},
      {"log-little-of-lot",
       [](const Values& v) {
         return fmt::format("only {} of the lot {} lay in store", v.weight("there_g"), v.word("lot"));
       }},
  };
}

/// Of the seed box (desk/packets.hpp).
Phrases packets() {
  return {
      {"come-up",
       [](const Values& v) {
         return fmt::format("{} come up today ({} to {})", v.share("middle_share"), v.share("low_share"),
                            v.share("high_share"));
       }},
      {"packet-comes-up",
       [](const Values& v) {
         return fmt::format("of packet {}, {} come up today ({} to {})", v.word("packet"),
                            v.share("middle_share"), v.share("low_share"), v.share("high_share"));
       }},
      {"aged-by-equation",
       [](const Values& v) {
         return fmt::format("{} when packed, {:.1f} years at {} and {} water by the viability equation: {}",
                            v.share("fresh_share"), v.number("age_years"), v.warmth("store_c"),
                            v.share("moisture_share"), v.share("expected_share"));
       }},
      {"aged-by-life",
       [](const Values& v) {
         return fmt::format(
             "{} when packed, {:.1f} years dry at {}, and half is left after {:.1f} as such seed is commonly "
             "kept: {}",
             v.share("fresh_share"), v.number("age_years"), v.warmth("store_c"), v.number("life_years"),
             v.share("expected_share"));
       }},
      {"tested",
       [](const Values& v) {
         return fmt::format("{}: {} as if from {}, and {} of {} came up", v.day("day"),
                            v.share("before_share"), v.counted("seeds", "seed"), v.count("came_up"),
                            v.count("sown"));
       }},
      {"renew", [](const Values&) { return std::string("less than half of a fresh packet: renew it"); }},
      {"test-first",
       [](const Values& v) {
         return fmt::format("{} old, and seed of {} is said to keep {}: lay out 20 on damp paper first",
                            v.counted("age_years", "year"), v.word("crop_name"), v.count("life_years"));
       }},
      {"sow-thicker",
       [](const Values& v) {
         return fmt::format("sow {:.1f} times as thick as fresh seed", v.number("times"));
       }},
      {"sow-thicker-than-told",
       [](const Values& v) {
         return fmt::format("sow {:.1f} times as thick as told here, which reckons with fresh seed",
                            v.number("times"));
       }},
      {"fresh-packet", [](const Values& v) { return "a fresh packet " + v.share("fresh_share"); }},
  };
}

const Phrases& english() {
  static const Phrases all = [] {
    Phrases phrases = places();
    for (Phrases part : {amounts(), reasons(), waits(), judgements(), judgements_of_size(), plan_notes(),
                         plan_changes(), plan_reasons(), log_cautions(), plan_beds(), packets()})
      phrases.merge(part);
    return phrases;
  }();
  return all;
}

/// A trace reads "under 1 g", and what is under something is not about it.
std::string without_doubled_about(std::string text) {
  constexpr std::string_view kAbout = "about ", kAtTheHead = "About under ";
  for (auto at = text.find("about under "); at != std::string::npos; at = text.find("about under ", at))
    text.erase(at, kAbout.size());
  if (text.starts_with(kAtTheHead)) text.replace(0, kAtTheHead.size(), "Under ");
  return text;
}

}  // namespace

std::string message_text(const Message& message, Units units, base::Date today) {
  const auto found = english().find(message.key);
  if (found == english().end()) throw std::logic_error("no phrase is called " + message.key);
  return without_doubled_about(found->second(Values(message, units, today)));
}

std::string messages_text(const std::vector<Message>& messages, Units units, base::Date today) {
  std::string text;
  for (const Message& message : messages) {
    if (!text.empty()) text += "; ";
    text += message_text(message, units, today);
  }
  return text;
}

std::string sentence_text(const std::vector<Message>& messages, Units units, base::Date today) {
  std::string text = messages_text(messages, units, today);
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text + ".";
}

}  // namespace sowtide::desk
