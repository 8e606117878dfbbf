#include "app/command/option_parts.hpp"

#include "shop/stiffen/candidates.hpp"

#include <CLI/CLI.hpp>

namespace evenpull {

void describe_stiffen(CLI::App& app, Request& r) {
  auto* stiffen = app.add_subcommand(
      "stiffen", "what would let the panel bear a hotter stage: battens, blocks and the like, tried one by one");
  add_case(*stiffen, r);
  stiffen
      ->add_option("--stage", r.stiffen.stage,
                   "the stage wanted: \"300 degF\"; without it the next beyond what a first look bears")
      ->type_name("TEMPERATURE");
  auto* take = stiffen
                   ->add_option("--take", r.stiffen.take,
                                "tries nothing: puts the one with this number into a copy of the case, with --into")
                   ->check(CLI::Range(1, static_cast<int>(most_candidates)))
                   ->type_name("N");
  auto* into = stiffen->add_option("--into", r.stiffen.into, "the copy, a new file; then plan it")
                   ->type_name("FILE")
                   ->needs(take);
  take->needs(into);
  stiffen
      ->add_flag("--thorough", r.stiffen.thorough,
                 "plans the best two in full, error bars and chances counted: two plans longer")
      ->excludes(take);
  add_paper(*stiffen, r, "paper of the page: letter or a4; letter if not said");
  add_threads(*stiffen, r);
  add_common(*stiffen, r);
}

}  // namespace evenpull
