set(EVENPULL_SUPPORT
  book.cpp
  cloth_patch.cpp
  sample_case.cpp
  sample_plan.cpp
  sample_plan_case.cpp
  sample_plan_panel.cpp
)
