// PDF: the same bytes each time, nothing lost in silence, and `norma` finds the program that
// prints.
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <string>

#include "emit/card.hpp"
#include "emit/card_pages.hpp"
#include "emit/checklist.hpp"
#include "emit/document_pages.hpp"
#include "emit/laid_out.hpp"
#include "emit/marks.hpp"
#include "press/pdf.hpp"
#include "support/shipped.hpp"
#include "support/support.hpp"
#include "wording/wording.hpp"

namespace norma::test {
namespace {

namespace fs = std::filesystem;

drawing::Paper one_page(std::string text, double height = 40) {
  drawing::PaperPage page;
  page.width = 297;
  page.height = 210;
  page.name = "Front";
  page.boxes.push_back(
      {{10, 10}, 80, height, {{{{std::move(text), false}}}}, drawing::Anchor::start, 0.5});
  return {"Cards", "en", {page}};
}

/// Only the texts, which have to fit at `least` of their size.
drawing::Paper texts_of(drawing::Paper paper, double least) {
  for (drawing::PaperPage& page : paper.pages) {
    page.figures.clear();
    page.items.clear();
    for (drawing::TextBox& box : page.boxes)
      box.least = least;
  }
  return paper;
}

/// Runs the program itself; its exit code.
int run_program(const std::string& arguments) {
  const int status = std::system((std::string(NORMA_PROGRAM) + " " + arguments).c_str());
  return WEXITSTATUS(status);
}

} // namespace

TEST_CASE("the same pages are the same bytes") {
  const cli::Printed once = press::pdf(one_page("Teeth together, please."));
  const cli::Printed again = press::pdf(one_page("Teeth together, please."));
  CHECK(once.failed.empty());
  CHECK(once.too_long.empty());
  CHECK(once.letters_missing == 0);
  CHECK(once.bytes.substr(0, 5) == "%PDF-");
  CHECK(once.bytes == again.bytes);
  CHECK(once.bytes != press::pdf(one_page("Teeth apart, please.")).bytes);
}

TEST_CASE("text that does not fit is told, and text that is set smaller fits") {
  std::string words;
  for (int i = 0; i < 60; ++i)
    words += "tongue back, ";
  CHECK(press::pdf(one_page(words)).too_long.empty());
  for (int i = 0; i < 3000; ++i)
    words += "tongue back, ";
  const cli::Printed out = press::pdf(one_page(words, 20));
  REQUIRE(out.too_long.size() == 1);
  CHECK(out.too_long.front() == "Front");
  CHECK(out.failed.empty());
}

TEST_CASE("letters that the font does not have are counted; nothing hostile breaks a page") {
  CHECK(press::pdf(one_page("Zähne, ζάρι, зуб")).letters_missing == 0);
  CHECK(press::pdf(one_page("\xe6\xad\xaf")).letters_missing > 0); // a Chinese one
  for (const char* text : {"\xe2\x80\xae tfel", "a\x01\x7f\n\t", "(\\)) endobj",
                           "e\xcc\x81\xcc\x81", "\xd7\xa9\xd7\x9f", "\xff\xfe"}) {
    const cli::Printed out = press::pdf(one_page(text));
    CHECK(out.failed.empty());
    CHECK(out.bytes.substr(0, 5) == "%PDF-");
  }
}

TEST_CASE("text that runs on is broken into pages, and headings stay with what they head") {
  drawing::Paper paper{"List", "en", {}, {{}}};
  drawing::Flow& flow = paper.flows.front();
  flow.name = "List";
  const auto pages = [&] {
    const cli::Printed out = press::pdf(paper);
    CHECK(out.failed.empty());
    return out.pages;
  };
  for (int i = 0; i < 20; ++i)
    flow.entries.push_back({drawing::Piece::tick, "Bags intact"});
  CHECK(pages() == 1);
  flow.entries.push_back({drawing::Piece::title, "For the lead", {}, true});
  CHECK(pages() == 2);
  for (int i = 0; i < 200; ++i)
    flow.entries.push_back(
        {drawing::Piece::fields, "Tray", {{"mirror", true, true}, {"why", false, true}}});
  CHECK(pages() == 7); // 273 mm below the margins, 5.8 mm and 1.4 mm of space each: 37 or 38 a page
  // One that is higher than a page is not lost in an endless row of pages.
  std::string words;
  for (int i = 0; i < 5000; ++i)
    words += "tongue back, ";
  flow.entries = {{drawing::Piece::text, words}, {drawing::Piece::text, "end"}};
  CHECK(pages() <= 3);
  CHECK(press::pdf(paper).too_long.size() == 1); // and it is told
}

TEST_CASE("texts of all shipped protocols fit their places in each language, and can be read") {
  // Of 4.4 mm letters 3 mm are left; in rows, which are for who knows the cards, of 3.5 mm 1.75 mm.
  constexpr double of_cards = 0.7;
  constexpr double of_rows = 0.5;
  std::size_t pages = 0;
  const auto fits = [&](const drawing::Paper& paper) {
    const cli::Printed out = press::pdf(paper);
    CHECK(out.failed.empty());
    CHECK(out.letters_missing == 0);
    for (const std::string& page : out.too_long)
      CHECK_MESSAGE(out.too_long.empty(), page);
    pages += static_cast<std::size_t>(out.pages);
  };
  each_shipped([&](const report::Report& report, const report::Held& held) {
    for (const wording::Language* in : wording::languages()) {
      CAPTURE(in->tag());
      const emit::Cards cards = emit::cards_of(report, held, "", *in);
      for (const emit::PaperSize* size : {&emit::a4, &emit::us_letter}) {
        CAPTURE(size->height);
        fits(texts_of(emit::cards_on_paper({cards}, *size, *in), of_cards));
        fits(texts_of(emit::cards_in_rows({cards}, *size, *in), of_rows));
        fits(emit::as_paper({emit::checklist(report, held, "", *in),
                             emit::laid_out(report, held, "", 6, *in),
                             emit::marks(report, held, "", *in)},
                            *size, *in));
      }
    }
  });
  CHECK(pages > 2000);
}

TEST_CASE("norma prints where it lies beside norma-press, and loses nothing where it cannot") {
  const fs::path folder = fs::temp_directory_path() / "norma_press_test";
  fs::remove_all(folder);
  fs::create_directories(folder);
  const std::string file = (folder / "cards.pdf").string();
  const std::string rest = " 2>/dev/null card --on 2026-11-25 --kit " +
                           (root() / "protocols/kits/chair_3.yaml").string() + " " +
                           (root() / "protocols/five.norma").string() + " -o ";
  CHECK(run_program(rest + file) == 0);
  const std::string bytes = read_file(file);
  CHECK(bytes.substr(0, 5) == "%PDF-");
  CHECK(bytes.find("%%EOF") != std::string::npos);
  CHECK(run_program(rest + (folder / "none/cards.pdf").string()) == 2);
  fs::remove_all(folder);
}

} // namespace norma::test
