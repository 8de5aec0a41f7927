// The command `letters`: what is drafted where a test cannot be reported.
#include "app/lab/render/letters.hpp"

#include "app/lab/commands/case_commands.hpp"
#include "app/machine/files.hpp"

namespace qb::lab {

int write_letters(const shared_options& shared, const lab_context_options& options,
                  const letters_options& o, const console& to) {
  const auto opened = open_case(shared, options, o.kit_or_test);
  if (!opened) return say_no(opened.error(), to);
  const std::string folder = o.out.empty() ? "." : o.out;
  const std::string name = o.name.empty() ? opened->kept.what.kit : o.name;
  const auto files =
      letter_files(opened->kept, opened->at.profile(), folder + "/" + report_name(name, "letters"));
  if (!files) return say_no(files.error(), to);
  if (const auto made = make_folder(folder); !made) return say_no(made.error(), to);
  const auto written = write_outputs(*files, {shared.store, {options.profile}, options.replace});
  if (!written) return say_no(written.error(), to);
  for (const output_file& file : *files)
    to.out(file.path + ": a draft, for a person to sign\n");
  return 0;
}

} // namespace qb::lab
