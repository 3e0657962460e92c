// The worklist for a terminal: work of the same kind and day in one block.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "book/words.hpp"
#include "desk/present.hpp"
#include "desk/season_text.hpp"

namespace sowtide::desk {
namespace {

/// Work that is done in one go: the same kind, on the same best day.
struct Block {
  std::vector<const Task*> tasks;

  [[nodiscard]] const Task& first() const { return *tasks.front(); }
  /// Whether all of its tasks say the same here, so that it is said once.
  template <class Member>
  [[nodiscard]] bool shares(Member member) const {
    return std::all_of(tasks.begin(), tasks.end(),
                       [&](const Task* task) { return task->*member == first().*member; });
  }
};

/// Tubers and cloves are planted, not sown.
bool plants_pieces(const Task& task) {
  if (task.amount_said.empty()) return false;
  const std::string& key = task.amount_said.front().key;
  return key == "plant-places" || key == "plant-cells";
}

std::string_view heading_of(const Task& task) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 12> kHeadings{
      {{"sow", "Sow"},
       {"check-emergence", "Look whether it is up"},
       {"re-sow", "Sow again"},
       {"harden-off", "Harden off"},
       {"set-out", "Set out"},
       {"thin", "Thin"},
       {"pick", "Pick"},
       {"look", "Look"},
       {"finish", "Clear"},
       {"eat", "Eat"},
       {"throw-away", "Throw away"},
       {"protect", "Protect"}}};
  if (plants_pieces(task)) return task.kind == "re-sow" ? "Plant again" : "Plant";
  if (task.log_text == "bought") return "Buy and set out";
  for (const auto& [kind, heading] : kHeadings) {
    if (kind == task.kind) return heading;
  }
  return task.kind;
}

/// The blocks in the order of their most pressing task.
std::vector<Block> blocks_of(const std::vector<Task>& tasks) {
  std::vector<Block> blocks;
  for (const Task& task : tasks) {
    const auto same = std::find_if(blocks.begin(), blocks.end(), [&](const Block& block) {
      return heading_of(block.first()) == heading_of(task) && block.first().due == task.due;
    });
    if (same == blocks.end()) {
      blocks.push_back({{&task}});
    } else {
      same->tasks.push_back(&task);
    }
  }
  return blocks;
}

/// The text of the entry as an option of its own where there is one.
std::string text_option(const Task& task) {
  if (task.log_text.empty()) return {};
  return task.log_text == book::kAllWord ? " --all" : fmt::format(" --text {}", task.log_text);
}

/// What is logged once it is done, but for what differs from stand to stand: "sown STAND --count N".
std::string log_form(const Task& task) {
  std::string form = fmt::format("{} {}", task.log_event, task.target.empty() ? "STAND" : "--target LOT");
  if (task.log_count >= 1.0) form += " --count N";
  if (task.log_event == "picked" || task.log_event == "eaten") form += " --weight …";
  return form + text_option(task);
}

/// "s3", or "s3 34" with what is to be counted.
std::string log_part(const Task& task) {
  const std::string name = task.target.empty() ? task.stand : task.target;
  return task.log_count >= 1.0 ? fmt::format("{} {:.0f}", name, task.log_count) : name;
}

/// One task alone: the line as it is to be typed.
std::string log_line(const Task& task) {
  const bool of_stand = task.target.empty();
  std::string line = fmt::format("  done: log GARDEN {} {}{}", task.log_event, of_stand ? "" : "--target ",
                                 of_stand ? task.stand : task.target);
  if (task.log_count >= 1.0) line += fmt::format(" --count {:.0f}", task.log_count);
  if (task.log_event == "picked" || task.log_event == "eaten") line += " --weight …";
  return line + text_option(task) + "\n";
}

/// One form of entry, and for which tasks it is written.
struct LogForm {
  std::string form;                ///< with STAND and N in the place of what differs
  std::vector<std::string> parts;  ///< what stands in their place, task by task
  std::string line;                ///< of the first task alone: as it is to be typed
};

void add_form(std::vector<LogForm>& forms, std::string form, std::string part, std::string line) {
  const auto found =
      std::find_if(forms.begin(), forms.end(), [&](const LogForm& each) { return each.form == form; });
  if (found == forms.end()) {
    forms.push_back({std::move(form), {std::move(part)}, std::move(line)});
  } else {
    found->parts.push_back(std::move(part));
  }
}

/// How the work of a block is logged once it is done, each form of entry once: first what was done, then what
/// of it was stored.
std::string log_lines(const Block& block) {
  std::vector<LogForm> forms;
  for (const Task* task : block.tasks) {
    if (!task->log_event.empty()) add_form(forms, log_form(*task), log_part(*task), log_line(*task));
  }
  for (const Task* task : block.tasks) {
    if (task->log_store.empty()) continue;
    const std::string rest = fmt::format("--weight … --text {}", task->log_store);
    add_form(forms, "stored STAND " + rest, task->stand,
             fmt::format("  done: log GARDEN stored {} {}\n", task->stand, rest));
  }
  std::string lines;
  for (const LogForm& each : forms) {
    lines += each.parts.size() == 1
                 ? each.line
                 : fmt::format("  done: log GARDEN {}, of {}\n", each.form, fmt::join(each.parts, ", "));
  }
  return lines;
}

std::string task_lines(const Block& block, const Task& task, Units units, base::Date today) {
  const std::string what =
      task.variety.empty() ? task.crop_name : fmt::format("{} {}", task.crop_name, task.variety);
  std::string text = fmt::format("  {}{}{}, {}: {}", task.stand, task.stand.empty() ? "" : " ", what, task.place,
                                 task.amount);
  if (!block.shares(&Task::latest))
    text += fmt::format(" (at the latest {})", date_text(task.latest, units, today));
  text += "\n";
  if (!block.shares(&Task::reason)) text += fmt::format("      why: {}\n", task.reason);
  if (!block.shares(&Task::caution) && !task.caution.empty())
    text += fmt::format("      care: {}\n", task.caution);
  if (!block.shares(&Task::handling) && !task.handling.empty())
    text += fmt::format("      store: {}\n", with_temperatures_in(task.handling, units));
  return text;
}

std::string block_text(const Block& block, Units units, base::Date today) {
  const Task& first = block.first();
  std::string text = fmt::format("{}: best {}", heading_of(first), date_text(first.due, units, today));
  if (block.shares(&Task::latest))
    text += fmt::format(", at the latest {}", date_text(first.latest, units, today));
  text += "\n";
  for (const Task* task : block.tasks) text += task_lines(block, *task, units, today);
  if (block.shares(&Task::reason)) text += fmt::format("  why: {}\n", first.reason);
  if (block.shares(&Task::caution) && !first.caution.empty())
    text += fmt::format("  care: {}\n", first.caution);
  if (block.shares(&Task::handling) && !first.handling.empty())
    text += fmt::format("  store: {}\n", with_temperatures_in(first.handling, units));
  return text + log_lines(block);
}

}  // namespace

std::string worklist_text(const Season& season, const std::vector<Task>& tasks, int days) {
  const Units units = units_of(season.garden.units);
  std::string text = fmt::format("{}, {}: work for {}, what costs most to leave first\n", season.garden.name,
                                 base::to_iso(season.today), counted(days, "day"));
  if (tasks.empty()) {
    return text + (season.state.stands.empty()
                       ? "\nNothing is planned yet. Next: sowtide plan GARDEN\n"
                       : fmt::format("\nNothing to do within {}.\n", counted(days, "day")));
  }
  for (const Block& block : blocks_of(tasks)) text += fmt::format("\n{}", block_text(block, units, season.today));
  return text;
}

}  // namespace sowtide::desk
