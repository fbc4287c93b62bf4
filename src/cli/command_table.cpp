#include "cli/command_table.hpp"

namespace norma::cli {
namespace {

using Severity = diag::Severity;

template <Format format> void set_format(Options& o) { o.format = format; }
template <const wording::Language& (*of)()> void set_language(Options& o) { o.language = &of(); }
template <Severity from> void set_fail_on(Options& o) {
  o.fail_on = from;
  o.never_fail = false;
  o.fail_on_given = true;
}

template <review::Class from> void set_fail_on_class(Options& o) { o.fail_on_class = from; }

} // namespace

const std::vector<CommandRow>& command_table() {
  // What several commands have.
  const Choice text{"text", set_format<Format::text>};
  const Choice lines{"lines", set_format<Format::lines>};
  const Choice json{"json", set_format<Format::json>};
  const Choice sarif{"sarif", set_format<Format::sarif>};
  const Choice github{"github", set_format<Format::github>};
  const Choice gitlab{"gitlab", set_format<Format::gitlab>};
  const Choice junit{"junit", set_format<Format::junit>};
  const Choice markdown{"markdown", set_format<Format::markdown>};
  const Choice html{"html", set_format<Format::html>};
  const Choice pdf{"pdf", set_format<Format::pdf>};
  const Choice csv{"csv", set_format<Format::csv>};
  const Choice paper_a4{"a4", [](Options& o) { o.paper = PaperName::a4; }};
  const Choice paper_letter{"letter", [](Options& o) { o.paper = PaperName::letter; }};

  const OptionRow& help = general_options().front();
  const OptionRow kit_file{{"--kit"},
                           "KIT",
                           &Options::kits,
                           "Kit file (YAML); give it again for more; if left out, those that "
                           "norma.yaml names for the file's folder"};
  const OptionRow no_project{
      {"--no-project"}, "", &Options::no_project, "As if there were no norma.yaml"};
  const OptionRow day{
      {"--on"}, "YYYY-MM-DD", &Options::on, "Day that dates are held against; today if left out"};
  const OptionRow fail_on{
      {"--fail-on"},
      "LEVEL",
      std::vector<Choice>{{"advice", set_fail_on<Severity::advice>},
                          {"warning", set_fail_on<Severity::warning>},
                          {"error", set_fail_on<Severity::error>},
                          {"never", [](Options& o) { o.never_fail = o.fail_on_given = true; }}},
      "Exit 1 from this level on: advice, warning, error (default) or never"};
  const OptionRow fail_on_of_check{fail_on.names, fail_on.value, fail_on.field,
                                   "Exit 1 from this level on: advice, warning, error or never; "
                                   "if left out, what norma.yaml says, else error"};
  const OptionRow root{
      {"--root"},
      "FOLDER",
      &Options::root,
      "Protocols may build on files below this folder only; if left out, below the nearest one "
      "above that holds .git, else the nearest that holds norma.yaml, else the file's own"};
  const OptionRow group{
      {"--for"},       "GROUP",
      &Options::group, "One group of patients only, such as 'children, mixed teeth'",
      false,           {},
      "groups"};

  const OptionRow old_kit{{"--old-kit"},
                          "KIT",
                          &Options::old_kits,
                          "Kit of before, one for each --kit; the same kits if left out"};
  const std::vector<Choice> effects{
      {"comparability", set_fail_on_class<review::Class::comparability>},
      {"quality", set_fail_on_class<review::Class::quality>},
      {"work", set_fail_on_class<review::Class::work>},
      {"record", set_fail_on_class<review::Class::record>},
      {"wording", set_fail_on_class<review::Class::wording>}};
  const auto format = [](std::vector<Choice> words, std::string_view what) {
    return OptionRow{{"--format"}, "FORMAT", std::move(words), what};
  };
  const OptionRow stdin_name{{"--stdin-name"},
                             "FILE",
                             &Options::stdin_name,
                             "What standard input (a FILE that is -) is called, and where it lies"};
  const OptionRow threads{
      {"--threads"},
      "NUMBER",
      &Options::threads,
      "Threads to work on, 16 at most; as many as the machine has cores if left out",
      false,
      {1, 4096}};
  const OptionRow paper{{"--paper"},
                        "SIZE",
                        std::vector<Choice>{paper_a4, paper_letter},
                        "Paper of a PDF: a4 (default) or letter"};
  const OptionRow which_series{
      {"--series"}, "NAME", &Options::series, "Series to take; the longest if left out",
      false,        {},     "series"};
  const OptionRow output{
      {"-o", "--output"}, "FILE", &Options::output, "File to write; standard output if left out"};
  const OptionRow watch{{"--watch"},
                        "",
                        &Options::watch,
                        "Write FILE of -o anew at each save of what is read, until Ctrl-C; a file "
                        "that is broken keeps the last one"};
  const OptionRow language{{"--language"},
                           "TAG",
                           std::vector<Choice>{
#define NORMA_LANGUAGE(name, tag) {tag, set_language<wording::name>},
#include "wording/languages.def"
#undef NORMA_LANGUAGE
                           },
                           "Language of what people read; en if left out"};
  const ArgumentRow protocols{"FILE", "Protocol files, or folders that hold them"};
  const ArgumentRow protocols_or_project{
      "FILE",
      "Protocol files, or folders that hold them; - is standard input; if left out, all that the "
      "project file (norma.yaml) stands above",
      0,
      {},
      {},
      true};
  const ArgumentRow protocols_or_stdin{
      "FILE", "Protocol files, or folders that hold them; - is standard input"};

  static const std::vector<CommandRow> rows{
      {"check",
       "Say what is wrong, and what was not checked",
       protocols_or_project,
       check,
       {help,
        {{"--no-scene"},
         "",
         &Options::no_scene,
         "Leave out what is worked out in three dimensions: faster"},
        threads,
        kit_file,
        no_project,
        {{"--baseline"},
         "",
         &Options::baseline,
         "Show and count only what does not stand in the file of known findings that norma.yaml "
         "names, and tell what is no longer there"},
        {{"--write-baseline"},
         "",
         &Options::write_baseline,
         "Write today's findings to that file first"},
        day,
        fail_on_of_check,
        root,
        group,
        stdin_name,
        format(
            {text, lines, json, sarif, github, gitlab, junit},
            "text (default), lines (one for each finding), json, sarif (2.1.0), github (workflow "
            "commands), gitlab (code quality report) or junit (test results, XML)"),
        language}},
      {"plan",
       "Print what is worked out of each view, as JSON for other programs",
       protocols,
       plan,
       {help,
        kit_file,
        no_project,
        day,
        fail_on,
        root,
        group,
        format({json}, "json (the only one)"),
        {{"--picture"},
         "VIEW",
         &Options::picture,
         "Draw one view instead: what the camera sees of the modelled mouth, and from above (SVG)",
         false,
         {},
         "views"},
        language,
        output}},
      {"list",
       "Print the checklist to work through and sign",
       protocols,
       list,
       {help, kit_file, no_project, day, fail_on, root, group, which_series,
        format({text, markdown, html, pdf},
               "text (default), markdown, html (to fill in on a screen; where FILE of -o ends in "
               ".html) or pdf (the same with .pdf)"),
        language, paper, output, watch}},
      {"card",
       "Make the cards to work by at the chair: a page for each view",
       protocols,
       card,
       {help,
        kit_file,
        no_project,
        day,
        fail_on,
        root,
        group,
        which_series,
        format({pdf, html},
               "pdf (where FILE of -o ends in .pdf) or html (else): one file for screen "
               "and paper, which asks for nothing"),
        {{"--compact"}, "", &Options::compact, "The whole series on one page, a row for each view"},
        language,
        paper,
        output,
        watch}},
      {"tray",
       "Say what to lay out: for one patient, or for several between two sterilising cycles",
       protocols,
       tray,
       {help,
        kit_file,
        no_project,
        day,
        fail_on,
        root,
        group,
        which_series,
        {{"--patients"},
         "NUMBER",
         &Options::patients,
         "Patients between two sterilising cycles, 1 to 1000; 1 if left out",
         false,
         {1, 1000}},
        format(
            {text, markdown, csv, html, pdf},
            "text (default), markdown, csv, html (where FILE of -o ends in .html) or pdf (.pdf)"),
        language,
        paper,
        output}},
      {"marks",
       "Print a marking sheet: what each picture is held against, with room for points",
       protocols,
       marks,
       {help, day, root, group, which_series,
        format(
            {text, markdown, csv, html, pdf},
            "text (default), markdown, csv, html (where FILE of -o ends in .html) or pdf (.pdf)"),
        language, paper, output}},
      {"chairs",
       "Hold protocols against several kits: a table of views by kits",
       protocols,
       chairs,
       {help, kit_file, no_project, day, fail_on, root, group, language}},
      {"compare",
       "Say what a change of protocols or kits does to the pictures, gravest first",
       {"FILE",
        "What was, and what is: two protocol files, or two folders or revisions that hold them"},
       compare,
       {help,
        kit_file,
        no_project,
        old_kit,
        {{"--from-git"},
         "",
         &Options::from_git,
         "For git, which calls so with the arguments of its external diff (norma git-setup)"},
        day,
        {{"--fail-on"},
         "CLASS",
         effects,
         "Exit 1 from this class on: comparability, quality, work, record or wording; never if "
         "left out"},
        root,
        group,
        language,
        format({text, markdown, html, pdf, json},
               "text (default), markdown (for a review), html (with drawings of both sides; where "
               "FILE of -o ends in .html), pdf (.pdf) or json"),
        paper,
        output}},
      {"affected",
       "Name the protocols that a change reaches, those that build on what changed with them",
       {"FILE", "What was, and what is: two folders of protocols", 2},
       affected,
       {help, kit_file, old_kit, no_project, day, root, group, language,
        format({text, markdown, html, pdf, json},
               "text (default), markdown, html (where FILE of -o ends in .html), pdf (.pdf) or "
               "json (the whole comparison)"),
        paper, output}},
      {"follow",
       "Take over a change of what a protocol builds on: its fingerprint is written anew",
       {"FILE", "A protocol file that builds on another", 1},
       follow,
       {help,
        {{"--since"},
         "OLD",
         &Options::since,
         "The same file as it was: what its base has changed since is told first"},
        kit_file,
        no_project,
        day,
        root,
        language}},
      {"mouths",
       "Say in how many mouths each view holds, and what it hangs on",
       protocols,
       mouths,
       {help,
        kit_file,
        no_project,
        day,
        fail_on,
        root,
        group,
        threads,
        {{"--mouths"},
         "NUMBER",
         &Options::mouths,
         "Mouths to draw, 16 to 100000; 1000 if left out",
         false,
         {16, 100000}},
        {{"--seed"},
         "NUMBER",
         &Options::seed,
         "Other mouths of the same spread; 1 if left out",
         false,
         {0, 1000000}},
        format({text, json}, "text (default) or json"),
        language}},
      {"margins",
       "Say how far each thing may be off before a view breaks what it promises",
       {"FILE", "A protocol file, and the views to tell of; all where none is named"},
       margins,
       {help,
        kit_file,
        no_project,
        day,
        fail_on,
        root,
        group,
        threads,
        {{"--shots"},
         "NUMBER",
         &Options::shots,
         "Shots in which all is off at once, up to 100000; 200 if left out, 0 for none",
         false,
         {0, 100000}},
        {{"--seed"},
         "NUMBER",
         &Options::seed,
         "Other shots of the same spread; 1 if left out",
         false,
         {0, 1000000}},
        format({text, json}, "text (default) or json"),
        {{"--picture"},
         "VIEW",
         &Options::picture,
         "Draw the margins of one view instead, as bars (SVG)",
         false,
         {},
         "views"},
        language,
        output}},
      {"kit",
       "Read kits back in words: what is missing, what is due",
       {"KIT", "Kit files (YAML)"},
       kit,
       {help, day, fail_on, format({text, markdown}, "text (default) or markdown")}},
      {"explain",
       "Explain a finding or a word, or every number of a view",
       {"TOPIC", "A code, a finding's name or a word; or a FILE and a VIEW", 2, {}, "topics"},
       explain,
       {help, kit_file, no_project, day, fail_on, root, group,
        format({text, json}, "text (default) or json"), language}},
      {"show",
       "Print a protocol with all resolved",
       protocols_or_stdin,
       show,
       {help,
        {{"--plain"},
         "",
         &Options::plain,
         "Without places and fingerprints, to be compared as text; what cannot be resolved stands "
         "as it is written, and the exit code is 0"},
        root,
        group,
        stdin_name}},
      {"tidy",
       "Put files into the one layout",
       protocols_or_stdin,
       tidy,
       {help,
        {{"--check"}, "", &Options::check_only, "Write nothing; exit 1 where one is not"},
        stdin_name}},
      {"live",
       "Show the pictures of a protocol in the browser, anew each time it is saved",
       {"FILE", "A protocol file", 1},
       live,
       {help,
        kit_file,
        day,
        root,
        group,
        {{"--port"},
         "NUMBER",
         &Options::port,
         "Port to listen at, on this machine alone; one that is free if left out",
         false,
         {1, 65535}},
        language}},
      {"serve",
       "Speak with an editor: a language server on standard input and output",
       {},
       serve,
       {help, day, language}},
      {"git-setup",
       "Say how git comes to compare protocols by norma, or set it up",
       {},
       git_setup,
       {help,
        {{"--write"},
         "",
         &Options::write,
         "Put it into .gitattributes and into the repository's configuration"},
        {{"--textconv"},
         "",
         &Options::textconv,
         "For `git log -p` and `git show`, too: resolved text, where protocols build on no other "
         "(git hands over the text without its folder)"}}},
      {"names",
       "List names, one a line: for completions and scripts",
       {"KIND", "views, series or groups, and the FILE that they are of; or topics of explain"},
       names,
       {help, root}},
      {"completions",
       "Print the completions of a shell, to be read by it",
       {"SHELL", "bash, zsh or fish", 1, shells()},
       completions,
       {help}},
  };
  return rows;
}

const std::vector<ExampleRow>& example_table() {
  static const std::vector<ExampleRow> rows{
      {"check five.norma", "the protocol alone"},
      {"check --kit chair_3.yaml five.norma", "held against a chair's kit"},
      {"check --baseline", "all of the project, and of that what is new"},
      {"check --kit a.yaml --kit b.yaml *.norma", "several protocols, each with several kits"},
      {"check --fail-on warning --format json five.norma", "for other tools"},
      {"check --format sarif protocols", "all below a folder, for code reviews"},
      {"check --format junit protocols", "the same as test results: a view is a case"},
      {"plan --kit chair_3.yaml five.norma", "all views, as JSON"},
      {"plan --picture right -o right.svg --kit a.yaml five.norma", "a drawing of what is seen"},
      {"list --kit chair_3.yaml five.norma", "the checklist to print and sign"},
      {"list --series record --kit chair_3.yaml five.norma", "of a shorter series"},
      {"card --kit chair_3.yaml -o cards.pdf five.norma", "a page for each view, to laminate"},
      {"card --kit chair_3.yaml -o cards.html five.norma", "the same for a tablet"},
      {"card --watch --kit a.yaml -o cards.html five.norma", "written anew at each save"},
      {"tray --kit chair_3.yaml --patients 6 five.norma", "what to lay out for six patients"},
      {"marks -o marks.pdf five.norma", "what a teacher holds the pictures against"},
      {"chairs --kit a.yaml --kit b.yaml five.norma", "which view can be had at which chair"},
      {"compare --kit chair_3.yaml old.norma new.norma", "what a change does to the pictures"},
      {"compare --kit new.yaml --old-kit old.yaml five.norma five.norma", "what another kit does"},
      {"affected old_tree new_tree", "who builds on what changed, and whom it reaches"},
      {"follow quarry.norma", "made for its base as that is now"},
      {"mouths --kit chair_3.yaml five.norma", "in how many mouths each view holds"},
      {"margins --kit chair_3.yaml five.norma upper", "how far camera and mirror may be off"},
      {"kit chair_3.yaml", "what the chair has, what is missing, what is due"},
      {"show children.norma", "all that holds, and where each line comes from"},
      {"live --kit chair_3.yaml five.norma", "pictures and findings beside your editor"},
      {"serve", "started by an editor, see docs/editor.md"},
      {"show --plain children.norma", "the same as text to compare"},
      {"names views five.norma", "what the views are called"},
      {"tidy five.norma", "put into the one layout"},
      {"tidy --check protocols", "exit 1 where a file is not in it"},
      {"tidy - --stdin-name five.norma", "from standard input to standard output"},
      {"git-setup --write", "git diff compares protocols by norma"},
      {"explain P003", "what a finding means, and how to mend it"},
      {"explain 'must show'", "what a word of the language means"},
      {"explain five.norma front --kit chair_3.yaml", "every number of a view, with its source"},
  };
  return rows;
}

const std::vector<OptionRow>& general_options() {
  static const std::vector<OptionRow> rows{
      {{"-h", "--help"}, "", {}, "Print this help message and exit"},
      {{"--version"}, "", {}, "Display program version information and exit"}};
  return rows;
}

std::vector<std::string_view> choices(const OptionRow& option) {
  std::vector<std::string_view> out;
  if (const auto* words = std::get_if<std::vector<Choice>>(&option.field)) {
    for (const Choice& choice : *words)
      out.push_back(choice.word);
  }
  return out;
}

std::string joined(const std::vector<std::string_view>& words, std::string_view between) {
  std::string out;
  for (const std::string_view word : words) {
    if (!out.empty()) out += between;
    out += word;
  }
  return out;
}

} // namespace norma::cli
