#include "plan/job.hpp"

namespace norma::plan {
namespace {

struct Held {
  int patient = 0;
  int assistant = 0;
  int operator_ = 0;
  std::string by_patient;
  std::string by_assistant;
  std::string by_operator;
  std::string nobody;

  [[nodiscard]] std::string text() const {
    std::string out;
    for (const auto& [who, what] :
         {std::pair{"patient", &by_patient}, std::pair{"assistant", &by_assistant},
          std::pair{"operator", &by_operator}}) {
      if (what->empty()) continue;
      out += (out.empty() ? "" : "; ") + std::string(who) + ": " + *what;
    }
    return out.empty() ? "nothing is held" : out;
  }
};

void add(Held& held, const std::string& thing, const std::optional<model::Person>& person) {
  std::string* list = &held.nobody;
  if (person == model::Person::patient) {
    ++held.patient;
    list = &held.by_patient;
  } else if (person == model::Person::assistant) {
    ++held.assistant;
    list = &held.by_assistant;
  } else if (person == model::Person::operator_) {
    ++held.operator_;
    list = &held.by_operator;
  } else if (person == model::Person::itself) {
    return; // it needs no hand
  }
  *list += (list->empty() ? "" : ", ") + thing;
}

} // namespace

void plan_hands(Job& job) {
  const model::View& view = job.view;
  if (view.right_retractor.broken() || view.left_retractor.broken() || view.mirror.broken() ||
      view.air.broken() || view.suction.broken() || view.paddle.broken() ||
      view.shade_tab.broken() || view.ruler.broken()) {
    job.facts.set_broken(fact::held_things);
    return;
  }
  Held held;
  const auto add_retractor = [&](const text::Sourced<model::Retractor>& r, const char* thing) {
    if (!r.known() || r->none || r->mirror_takes_place) return;
    add(held, thing, r->held_by);
  };
  add_retractor(view.right_retractor, "retractor on the right");
  add_retractor(view.left_retractor, "retractor on the left");
  if (view.mirror.known()) add(held, "mirror", view.mirror->held_by);
  const auto add_thing = [&](const text::Sourced<model::HeldThing>& t, const char* thing) {
    if (t.known()) add(held, thing, t->held_by);
  };
  add_thing(view.air, "air");
  add_thing(view.suction, "suction");
  add_thing(view.paddle, "contrast paddle");
  add_thing(view.shade_tab, "shade tab");
  add_thing(view.ruler, "ruler");
  job.facts.set(fact::held_things, held.text(), Status::asked);
  job.facts.set(fact::patient_hands_needed, held.patient, Status::asked, {&fact::held_things});
  job.facts.set(fact::assistant_hands_needed, held.assistant, Status::asked, {&fact::held_things});
  job.facts.set(fact::operator_hands_needed, held.operator_, Status::asked, {&fact::held_things});
  if (!held.by_operator.empty())
    job.facts.set(fact::held_by_operator, held.by_operator, Status::asked);
  if (!held.nobody.empty()) job.open(question::hands_enough, "who holds: " + held.nobody);

  const auto give = [&](const FactDef<int>& def, const text::Sourced<int>* said) {
    if (said != nullptr && said->known()) {
      job.facts.set(def, said->get(), Status::measured);
    } else if (said != nullptr && said->broken()) {
      job.facts.set_broken(def);
    } else {
      job.facts.set(def, 2, Status::assumed);
    }
  };
  give(fact::patient_hands, job.kit == nullptr ? nullptr : &job.kit->patient_hands);
  if (job.protocol.no_assistant) {
    job.facts.set(fact::assistant_hands, 0, Status::asked);
  } else {
    give(fact::assistant_hands, job.kit == nullptr ? nullptr : &job.kit->assistant_hands);
  }
  job.facts.set(fact::operator_hands, 0, Status::assumed);
}

} // namespace norma::plan
