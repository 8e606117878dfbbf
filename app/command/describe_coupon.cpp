#include "app/command/option_parts.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_coupon(CLI::App& app, Request& r) {
  auto* coupon = app.add_subcommand(
      "coupon", "the pull of your own cloth: how to make a square of it, and what its sag under weights says");
  coupon->add_option("CASE", r.case_file, "a case file whose curve is scaled; left out: the usual curve. Not changed")
      ->type_name("");
  auto& c = r.coupon;
  const auto text = [&](const char* name, std::string& into, const char* what) {
    coupon->add_option(name, into, what)->type_name("TEXT");
  };
  add_each(*coupon, "--reading", c.readings,
           "sags under weights at a stage, once a stage: --reading \"300 degF: 0.5 kg = 1.84 mm, 1 kg = 3.68 mm\". "
           "Without any the sheet that says how to do it is made");
  add_each(
      *coupon, "--marks", c.marks,
      "marks on a loose piece before and after a stage: --marks \"300 degF: warp 500 mm = 465 mm, fill 500 mm = 470 "
      "mm\"");
  text("--inside", c.inside, "from board to board, inside: 16 in on letter, 400 mm on a4 if not said");
  text("--disc", c.disc, "across the disc: 4 in on letter, 100 mm on a4 if not said");
  text("--boards", c.boards,
       "how high and how wide the boards lie, like \"38 mm x 89 mm\"; left out: the narrowest that are stiff enough");
  text("--sag-reading", c.sag_reading, "what a sag may be read off by, one sigma; 0.1 mm (a depth gauge) if not said");
  coupon
      ->add_option("--into", c.into,
                   "put the curve and [spread] into this case file; the earlier file is kept beside it, every other "
                   "line stays as it is")
      ->type_name("FILE");
  add_slip(*coupon, r);
}

}  // namespace evenpull
