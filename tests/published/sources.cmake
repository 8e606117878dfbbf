set(EVENPULL_PUBLISHED_TESTS
  test_annulus.cpp
  test_arc_bay.cpp
  test_beam_column.cpp
  test_bent_strip.cpp
  test_bolted_joint.cpp
  test_buckled_frame.cpp
  test_capstan.cpp
  test_capstan_strip.cpp
  test_catenoid.cpp
  test_chain.cpp
  test_cloth_patch.cpp
  test_column.cpp
  test_continuous_beam.cpp
  test_disc_on_membrane.cpp
  test_end_rib.cpp
  test_following_pressure.cpp
  test_free_air.cpp
  test_frame.cpp
  test_frame_in_space.cpp
  test_grillage.cpp
  test_iron_heat.cpp
  test_joint_turn.cpp
  test_manufactured.cpp
  test_membrane_cylinder.cpp
  test_membrane_frequency.cpp
  test_membrane_in_air.cpp
  test_mesh_convergence.cpp
  test_moving_air.cpp
  test_partial_doses.cpp
  test_round_membrane.cpp
  test_sag_between_ribs.cpp
  test_section.cpp
  test_shear.cpp
  test_sheared_sheet.cpp
  test_shut_in_air.cpp
  test_tapered_rib.cpp
  test_tension_field.cpp
  test_thin_flats.cpp
  test_thin_walls.cpp
  test_tight_bay.cpp
  test_tight_rectangle.cpp
  test_triangle_torsion.cpp
  test_weighted_square.cpp
  test_whole_panels.cpp
  test_wrinkled_strip.cpp
)
# The bare frame under a weight is a room of its own, which is not built with solver and sequencer alone.
if(TARGET evenpull_shop)
  list(APPEND EVENPULL_PUBLISHED_TESTS test_pushed_frame.cpp)
  list(APPEND EVENPULL_PUBLISHED_TEST_LIBRARIES evenpull_shop)
else()
  list(APPEND EVENPULL_PUBLISHED_TESTS_LEFT_OUT test_pushed_frame.cpp)
endif()
