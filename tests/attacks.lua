-- SPDX-License-Identifier: MIT
-- What would lose something of the user's or let something in, and the tests that show
-- that it does not: {what, {"file.test", ...}}. test_attacks.lua holds the names against
-- the files; `make trust ONLY=attacks` runs these tests and no others.
return {
  -- nothing lost
  {"half a file: killed, full disk, failing sync or rename", {
    "test_kills.test_a_package_by_the_command", "test_kills.test_a_streamed_csv",
    "test_files.test_a_file_is_replaced_whole", "test_files.test_a_full_disk_is_noticed",
    "test_failing_system.test_calls_of_the_system_that_fail"}},
  {"a rename before the bytes are on the disk; temporary names that are taken", {
    "test_failing_system.test_calls_of_the_system_that_fail"}},
  {"mode, owner and target of a link; devices, pipes, folders, links that lead nowhere", {
    "test_files.test_what_is_there_keeps_its_mode_and_links",
    "test_failing_system.test_calls_of_the_system_that_fail"}},
  {"a NUL in a path, names at the system's limit", {
    "test_files.test_paths_that_no_file_can_have"}},
  {"two writers of one path, two runs into one folder", {
    "test_files.test_two_writers_do_not_mix",
    "test_files.test_a_run_that_goes_on_is_not_taken_back"}},
  {"an open handle or - in place of a path", {
    "test_files.test_an_open_file_is_written_and_left_open",
    "test_files.test_standard_output_by_its_name"}},
  {"a package half written, also among files of the user's own", {
    "test_files.test_a_set_that_fails_leaves_the_one_before",
    "test_files.test_killed_runs_leave_a_whole_set",
    "test_files.test_a_run_stopped_among_files_of_the_user_is_taken_back",
    "test_failing_system.test_calls_of_the_system_that_fail"}},
  {"stale files of an earlier run, files of another's in the folder", {
    "test_files.test_a_set_replaces_its_own_files_alone",
    "test_files.test_names_outside_the_folder_are_refused"}},
  {"a package into its own survey, by another name", {
    "test_files.test_folders_are_told_apart_by_what_they_are"}},
  {"standard output on a full disk", {
    "test_hostile.test_a_full_disk_on_standard_output"}},
  {"an installation over another, odd prefixes", {
    "test_hostile.test_an_installation_touches_its_own_files_alone",
    "test_hostile.test_a_prefix_that_no_search_path_can_hold_is_refused"}},
  -- nothing let in
  {"code of the folder it is started in, or of the environment", {
    "test_hostile.test_no_code_of_the_folder_it_is_started_in"}},
  {"code, size and slips in files from others", {
    "test_packs.test_files_are_data",
    "test_packs.test_planted_slips_are_named",
    "test_packs.test_misspelled_keys_are_caught",
    "test_packs.test_too_many_limits_are_refused",
    "test_workbook_in.test_a_bomb_of_ten_megabytes_in_bounded_memory",
    "test_workbook_in.test_entities_are_refused"}},
  {"lists that change while they are read, callbacks that take away what is worked", {
    "test_hostile.test_no_code_of_a_caller_runs_while_a_table_is_read",
    "test_hostile.test_a_finalizer_disturbs_no_review",
    "test_hostile.test_progress_that_drops_the_columns",
    "test_hostile_input.test_progress_that_closes_the_file"}},
  {"surveys that are no file, do not end, or are very large", {
    "test_hostile_input.test_a_survey_that_is_no_file",
    "test_hostile_input.test_a_folder_with_a_pipe",
    "test_hostile_input.test_a_survey_of_100000_joists",
    "test_hostile.test_a_survey_of_more_joists_than_are_read",
    "test_hostile.test_a_large_floor_takes_linear_time",
    "test_files.test_a_file_is_read_if_it_is_one"}},
  {"texts that steer a terminal, turn the direction or are no UTF-8", {
    "test_hostile.test_messages_about_joists_and_their_parts",
    "test_hostile.test_messages_of_functions",
    "test_hostile.test_what_a_floor_of_such_names_prints",
    "test_hostile.test_modules_raise_plain_text", "test_command.test_hostile_text",
    "test_survey.test_hostile_text", "test_survey.test_hostile_problems",
    "test_survey.test_any_bytes"}},
  {"texts that are markup, formulas or commands where they are written", {
    "test_package.test_hostile_texts_run_nothing_in_gnuplot",
    "test_package.test_hostile_texts_are_no_markup_in_html",
    "test_package.test_hostile_texts_are_words_in_markdown",
    "test_package.test_hostile_texts_are_words_in_latex",
    "test_package.test_hostile_texts_are_no_formulas_in_csv",
    "test_photos.test_hostile_names_stay_text", "test_plot.test_hostile_text_is_text"}},
  {"marks that make no name of a file", {
    "test_hostile_input.test_marks_that_make_no_name_of_a_file",
    "test_package.test_hostile_marks_become_plain_names_of_files"}},
  {"gnuplot that hangs, fails or draws no picture; other programs as well", {
    "test_files.test_gnuplot_is_held_to_time_and_pictures",
    "test_files.test_a_private_folder_is_private",
    "test_hostile_input.test_a_package_whose_pictures_fail",
    "test_many_pages.test_programs_that_are_not_there_or_end",
    "test_failing_system.test_calls_of_the_system_that_fail"}},
  {"a host with decimal commas", {
    "test_locale.test_decimal_commas_of_the_host_change_no_byte",
    "test_locale.test_numbers_are_written_by_one_function"}},
  {"wrong and random values, numbers out of all range", {
    "test_misuse.test_whole_arguments",
    "test_misuse.test_a_mode_or_state_that_is_no_word",
    "test_random_calls.test_random_values_to_public_functions",
    "test_hostile.test_numbers_out_of_all_range_are_named",
    "test_bindings.test_columns_are_read_within_their_bounds",
    "test_bounds.test_lateral"}},
}
