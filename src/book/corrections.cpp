#include "book/corrections.hpp"

#include <algorithm>
#include <tuple>

#include "book/garden.hpp"

namespace sowtide::book {

bool Corrections::removed(std::string_view id) const {
  const auto found = standing_against_.find(id);
  return found != standing_against_.end() && found->second > 0;
}

std::vector<std::string> Corrections::turned_by(const std::string& target) const {
  std::vector<std::string> turned;
  const std::string* id = &target;
  bool falls = true;
  while (true) {
    const auto count = standing_against_.find(*id);
    const int against = count == standing_against_.end() ? 0 : count->second;
    // It turns when the first correction against it comes, or the last one goes.
    if (falls ? against > 0 : against > 1) return turned;
    turned.push_back(*id);
    const auto next = target_of_.find(*id);
    if (next == target_of_.end()) return turned;
    id = &next->second;
    falls = !falls;
  }
}

void Corrections::take(const std::string& id, const std::string& target) {
  const std::vector<std::string> turned = turned_by(target);
  target_of_.emplace(id, target);
  ++standing_against_[target];
  for (std::size_t i = 0; i < turned.size(); ++i) {
    const auto next = target_of_.find(turned[i]);
    if (next != target_of_.end()) standing_against_[next->second] += i % 2 == 0 ? -1 : 1;
  }
}

std::vector<std::string> Corrections::restored_by(const std::string& target) const {
  std::vector<std::string> restored;
  const std::vector<std::string> turned = turned_by(target);
  for (std::size_t i = 1; i < turned.size(); i += 2) restored.push_back(turned[i]);
  return restored;
}

Corrections corrections_of(const std::vector<Event>& events) {
  std::vector<const Event*> in_order;
  for (const Event& event : events) {
    if (event.kind == EventKind::corrected) in_order.push_back(&event);
  }
  std::sort(in_order.begin(), in_order.end(), [](const Event* a, const Event* b) {
    return std::tie(a->sequence, a->id) < std::tie(b->sequence, b->id);
  });
  Corrections corrections;
  for (const Event* event : in_order) corrections.take(event->id, event->target);
  return corrections;
}

std::set<std::string, std::less<>> stands_of_log(const std::vector<Event>& events) {
  const Corrections corrections = corrections_of(events);
  std::set<std::string, std::less<>> named;
  for (const Event& event : events) {
    const bool stands = event.kind != EventKind::corrected && !corrections.removed(event.id);
    if (stands && !event.stand.empty()) named.insert(event.stand);
  }
  return named;
}

}  // namespace sowtide::book
