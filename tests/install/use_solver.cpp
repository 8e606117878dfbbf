// Irons five bays in code, zone by zone, and says how the pull comes up.
#include "invented_panel.hpp"

#include <evenpull/solver/ironing/ironing.hpp>
#include <evenpull/solver/readings/readings.hpp>

#include <cstdio>

int main() {
  const evenpull::Case c = invented::tailplane(5);
  evenpull::MeshOptions mesh;
  mesh.target_nodes = c.target_nodes;
  const evenpull::Model model(c, mesh);
  evenpull::Ironing ironing(model);
  evenpull::Covering cloth = ironing.begin();

  bool good = model.panel.zones.size() == 10;
  for (std::size_t zone = 0; zone < model.panel.zones.size(); ++zone) {
    const double before = evenpull::read_off(model, cloth).zones.chord[zone];
    const evenpull::StepReport step =
        ironing.iron(cloth, static_cast<int>(zone), ironing.heat(0, 1, 1, 1), model.panel.zones[zone].label);
    const double after = evenpull::read_off(model, cloth).zones.chord[zone];
    std::printf("%s: %.1f N/m before, %.1f N/m after, %d iterations\n", model.panel.zones[zone].label.c_str(), before,
                after, step.solve.iterations);
    good = good && step.outcome == evenpull::Outcome::settled && step.solve.converged && after > before + 50;
  }
  return good ? 0 : 1;
}
