// The tables of a project file's keys.
#include <algorithm>

#include "kit/fields.hpp"
#include "project/settings.hpp"

namespace norma::kit {

template <> struct Choices<project::FailOn> {
  static constexpr Choice<project::FailOn> rows[] = {{"advice", project::FailOn::advice, ""},
                                                     {"warning", project::FailOn::warning, ""},
                                                     {"error", project::FailOn::error, ""},
                                                     {"never", project::FailOn::never, ""}};
};
template <> struct Choices<project::Patients> {
  static constexpr Choice<project::Patients> rows[] = {
      {"adults", project::Patients::adults, ""},
      {"children", project::Patients::children, ""},
      {"children, mixed teeth", project::Patients::mixed_teeth, ""},
      {"children, milk teeth", project::Patients::milk_teeth, ""}};
};

} // namespace norma::kit

namespace norma::project {
namespace {

using kit::Field;
using kit::Form;
using kit::Key;
using kit::not_missed;
using kit::Reader;
using kit::required;
using kit::said_apart;
using kit::Section;
using kit::Yaml;

/// One path or a list of them, none twice.
template <auto M> constexpr auto paths() {
  using T = kit::fields::Owner<M>;
  return Field<T>(
      Form::range(Form::Value::text, 1, kit::longest_text).as(Form::Shape::one_or_list),
      [](Reader& r, const Yaml& y, const Form&, T& t) {
        Paths& all = (t.*M).emplace();
        const auto add = [&](const Yaml& one) {
          const auto path = r.text(one);
          if (!path.known()) return;
          const bool twice = std::any_of(
              all.begin(), all.end(), [&](const auto& other) { return other.get() == path.get(); });
          if (twice)
            r.out_of_range(one, "it is named twice");
          else
            all.push_back(path);
        };
        if (y.kind == Yaml::Kind::list)
          std::for_each(y.items.begin(), y.items.end(), add);
        else
          add(y);
      },
      kit::fields::nothing<T>, [](const T& t) { return !(t.*M); }, nullptr);
}

/// Judged before all other keys.
void read_edition(Reader& /*r*/, const Yaml& /*y*/, const Form& /*form*/, Settings& /*s*/) {}

constexpr Key<Folder> folder_table[] = {
    {"folder", kit::plain_text<&Folder::folder>(), required, "the way to it from the project file",
     said_apart},
    {"kits", paths<&Folder::kits>(), not_missed,
     "the kits its protocols are held against, in place of those above; `[]`: none", said_apart},
    {"groups", kit::choices<&Folder::groups>(), not_missed,
     "the groups of patients that are looked at here, in place of those above", said_apart},
};
constexpr Section<Folder> folder_block{"a folder", folder_table, nullptr};

constexpr Key<Settings> project_table[] = {
    {"norma project",
     Field<Settings>(
         Form::range(Form::Value::edition, 1, 1), read_edition, kit::fields::nothing<Settings>,
         [](const Settings&) { return false; }, nullptr),
     required, "write `norma project: 1` as the first line", said_apart},
    {"kits", paths<&Settings::kits>(), not_missed,
     "the kit files that protocols are held against, where their folder names no others",
     said_apart},
    {"groups", kit::choices<&Settings::groups>(), not_missed,
     "the groups of patients that are looked at; `children` are all of them; all groups if left "
     "out; a name with a comma in it stands between quotes",
     said_apart},
    {"fail on", kit::choice<&Settings::fail_on>(), not_missed,
     "from which finding on `norma check` ends with exit code 1; `error` if left out", said_apart},
    {"leave out", paths<&Settings::leave_out>(), not_missed,
     "folders and files that are not looked at where a folder above them is", said_apart},
    {"baseline", kit::plain_text<&Settings::baseline>(), not_missed,
     "the file of known findings (JSON), which `norma check --write-baseline` writes", said_apart},
    {"folders", kit::blocks<&Settings::folders, folder_section>(), not_missed,
     "what holds for single folders and all below them; the nearest folder counts", said_apart},
};
constexpr Section<Settings> project_block{"the project", project_table, nullptr};

} // namespace

std::string_view to_text(Patients group) {
  for (const auto& row : kit::Choices<Patients>::rows)
    if (row.value == group) return row.word;
  return "";
}

const Section<Settings>& project_section() { return project_block; }
const Section<Folder>& folder_section() { return folder_block; }

} // namespace norma::project
