set(EVENPULL_SUPPORT
  sample_case.cpp
  sample_plan.cpp
  sample_plan_case.cpp
  sample_plan_panel.cpp
)
