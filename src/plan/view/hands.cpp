#include "plan/job.hpp"

namespace norma::plan {
namespace {

struct Held {
  List by_patient;
  List by_assistant;
  List by_operator;
  List by_nobody;

  [[nodiscard]] Said by_whom() const {
    List out;
    out.semicolons = true;
    for (const auto& [who, what] : {std::pair{&phrase::held_by_patient, &by_patient},
                                    std::pair{&phrase::held_by_assistant, &by_assistant},
                                    std::pair{&phrase::held_by_operator, &by_operator}}) {
      if (!what->items.empty()) out.items.emplace_back((*who)(*what));
    }
    return out.items.empty() ? phrase::nothing_is_held() : phrase::held_things(std::move(out));
  }
};

int count(const List& things) { return static_cast<int>(things.items.size()); }

void add(Held& held, const diag::Term& thing, const std::optional<model::Person>& person) {
  List* list = &held.by_nobody;
  if (person == model::Person::patient) {
    list = &held.by_patient;
  } else if (person == model::Person::assistant) {
    list = &held.by_assistant;
  } else if (person == model::Person::operator_) {
    list = &held.by_operator;
  } else if (person == model::Person::itself) {
    return; // it needs no hand
  }
  list->items.emplace_back(thing());
}

/// A retractor of one side, or a piece for both. What the kit says of its hands counts as read.
void add_held_retractor(Job& job, Held& held, const model::Retractor& asked,
                        const kit::Retractor* piece, const diag::Term& thing) {
  const bool itself = piece != nullptr && piece->holds_itself();
  if (itself || (piece != nullptr && piece->holds_both_sides())) {
    job.facts.find(fact::right_retractor);
    job.facts.find(fact::left_retractor);
  }
  if (!asked.held_by && itself) return; // nobody needs to say who holds it
  add(held, thing, asked.held_by);
  if (asked.held_by == model::Person::itself && piece != nullptr && !piece->held.known())
    job.open(question::retractor_holds_itself, missing::retractor_held());
}

void add_retractors(Job& job, Held& held) {
  const model::View& view = job.view;
  const Chosen& chosen = job.out.chosen;
  const auto add_of = [&](const text::Sourced<model::Retractor>& asked, const kit::Retractor* piece,
                          const diag::Term& thing) {
    if (asked.known() && !asked->none && !asked->mirror_takes_place)
      add_held_retractor(job, held, asked.get(), piece, thing);
  };
  if (const kit::Retractor* both = chosen.one_piece())
    return add_of(view.right_retractor, both, phrase::retractor);
  add_of(view.right_retractor, chosen.right_retractor, phrase::right_retractor);
  add_of(view.left_retractor, chosen.left_retractor, phrase::left_retractor);
}

} // namespace

void plan_hands(Job& job) {
  const model::View& view = job.view;
  if (view.right_retractor.broken() || view.left_retractor.broken() || view.mirror.broken() ||
      view.air.broken() || view.suction.broken() || view.paddle.broken() ||
      view.shade_tab.broken() || view.ruler.broken()) {
    job.facts.put_broken(fact::held_things);
    return;
  }
  Held held;
  facts::Record pieces;
  {
    const Recording read(job.facts);
    add_retractors(job, held);
    pieces = job.facts.kept();
  }
  if (view.mirror.known()) add(held, phrase::mirror, view.mirror->held_by);
  const auto add_thing = [&](const text::Sourced<model::HeldThing>& t, const diag::Term& thing) {
    if (t.known()) add(held, thing, t->held_by);
  };
  add_thing(view.air, phrase::air);
  add_thing(view.suction, phrase::suction);
  add_thing(view.paddle, phrase::contrast_paddle);
  add_thing(view.shade_tab, phrase::shade_tab);
  add_thing(view.ruler, phrase::ruler);
  {
    const Recording one(job.facts);
    job.facts.use(pieces);
    job.facts.put(fact::held_things, held.by_whom());
    job.facts.find(fact::held_things);
    job.facts.put(fact::patient_hands_needed, count(held.by_patient));
    job.facts.put(fact::assistant_hands_needed, count(held.by_assistant));
    job.facts.put(fact::operator_hands_needed, count(held.by_operator));
    if (!held.by_operator.items.empty()) job.facts.put(fact::held_by_operator, held.by_operator);
  }
  if (!held.by_nobody.items.empty())
    job.open(question::hands_enough, missing::who_holds(held.by_nobody));

  const auto give = [&](const FactDef<int>& def, text::Sourced<int> kit::Kit::*hands) {
    const Recording one(job.facts);
    const text::Sourced<int> said = job.has_kit() ? job.kit()->*hands : text::Sourced<int>();
    if (said.broken()) return job.facts.put_broken(def);
    if (said.absent()) job.facts.note(Status::assumed);
    job.facts.put(def, said.value_or(2));
  };
  give(fact::patient_hands, &kit::Kit::patient_hands);
  if (job.protocol.no_assistant) {
    job.facts.put(fact::assistant_hands, 0);
  } else {
    give(fact::assistant_hands, &kit::Kit::assistant_hands);
  }
  job.facts.note(Status::assumed);
  job.facts.put(fact::operator_hands, 0);
}

} // namespace norma::plan
