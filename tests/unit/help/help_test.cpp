// The helps and the man page of a small program that is no program of ours.
#include "app/help/dress.hpp"
#include "app/help/man_page.hpp"
#include "app/help/option_words.hpp"

#include <catch2/catch.hpp>

using namespace qb::help;

namespace {

struct small_program {
  CLI::App app;
  manual words;
  std::string file;
  std::string by;
  int much{0};
  bool salted{false};

  small_program() {
    app.set_help_flag("-h,--help", "this help");
    app.add_option("--look", by, "how it looks")->group(of_every_command);
    CLI::App* boil = app.add_subcommand("boil");
    boil->add_option("--by", by, "who boils")->required();
    boil->add_option("POT", file, "the pot")->required();
    boil->add_option(
        "--much", much,
        "how much water there is in the pot before anything is put into it, in millilitres");
    boil->add_flag("--salted", salted, "with salt");
    words = {
        "kettle",
        "1.0",
        "boils",
        "Boils water.",
        "All of it.",
        {{"Boil", "kettle boil pot"}},
        {{"--look", "LOOK"}, {"--by", "NAME"}, {"boil --much", "ML"}},
        {{"boil",
          "Water",
          "boil a pot",
          "Some words.\n.A line that begins with a stop.\n\n  a table  of two\n\nIt's all.",
          {{"Salted", "kettle boil pot --by me \\\n  --salted"}, {"Refused", "kettle boil", 2}},
          "Exit status 2 also without water."}},
        {{"Other things", "What else there is.", {{"Tea", "kettle brew"}}}},
        "teapot"};
  }
};

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("a command's help begins with what it is, how it is typed and its examples", "[help]") {
  small_program p;
  dress(p.app, p.words);
  const std::string help = p.app.get_subcommand("boil")->help("kettle");
  CHECK(help.rfind("kettle boil: boil a pot\n\n"
                   "Usage: kettle boil POT --by NAME [options]\n\n"
                   "Examples:\n"
                   "  Salted:\n"
                   "    kettle boil pot --by me \\\n"
                   "      --salted\n"
                   "  Refused (exit status 2):\n"
                   "    kettle boil\n\n"
                   "Arguments:\n",
                   0) == 0);
  CHECK(has(help, "\nAs of every command: --look\n"));
  CHECK(has(help, "\nExit status: 0 done; 2 input or options were refused; 1 the machine failed.\n"
                  "Exit status 2 also without water.\n"));
}

TEST_CASE("a long word for an option goes on below itself, within 80 columns", "[help]") {
  small_program p;
  dress(p.app, p.words);
  const std::string help = p.app.get_subcommand("boil")->help("kettle");
  CHECK(has(help,
            "\n  --much ML                how much water there is in the pot before anything is"
            "\n                           put into it, in millilitres\n"));
}

TEST_CASE("a program's help lists its commands with their summaries", "[help]") {
  small_program p;
  dress(p.app, p.words);
  const std::string help = p.app.help();
  CHECK(help.rfind("Boils water.\n\nUsage: kettle [COMMAND] [options]\n\nExamples:\n  Boil:\n",
                   0) == 0);
  CHECK(has(help, "\nWater:\n  boil                     boil a pot\n"));
}

TEST_CASE(
    "a command without a page, a page without a command and an option without a value are named",
    "[help]") {
  small_program p;
  CHECK(untold(p.app, p.words).empty());
  p.app.get_subcommand("boil")->add_subcommand("over");
  p.words.pages.push_back({"brew", "Water", "tea", "", {}, ""});
  p.words.values.erase("boil --much");
  CHECK(untold(p.app, p.words) == std::vector<std::string>{"--much", "boil over", "brew"});
}

TEST_CASE("a man page's words cannot be taken for requests", "[help]") {
  small_program p;
  dress(p.app, p.words);
  const std::string page = man_page(p.app, p.words);
  CHECK(has(page, "\n\\&.A line that begins with a stop.\n"));
  CHECK(has(page, "\nIt\\(aqs all.\n"));
  CHECK(has(page, "\nkettle boil pot \\-\\-by me \\e\n  \\-\\-salted\n"));
}

TEST_CASE("a man page tells each command as its help does, and what is about none", "[help]") {
  small_program p;
  dress(p.app, p.words);
  const std::string page = man_page(p.app, p.words);
  CHECK(has(page, ".SS boil\nboil a pot\n.PP\n\\fBkettle boil\\fR POT \\-\\-by NAME [options]\n"));
  CHECK(has(page, ".TP\n\\fB\\-\\-salted\\fR\nwith salt\n"));
  CHECK(has(page, "\nRefused (exit status 2):\n.\\\" example 2\n.in +2n\n.EX\nkettle boil\n.EE\n"));
  CHECK(has(page, ".in +2n\n.EX\na table  of two\n.EE\n"));
  CHECK(has(page, ".SH OTHER THINGS\nWhat else there is.\n"));
  CHECK(has(page, ".SH SEE ALSO\n\\fBteapot\\fR(1)\n"));
}
