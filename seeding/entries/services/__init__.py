"""The writers of the ground floor."""

from seeding.entries.services.division import add_weight_set, edit_division, remove_division
from seeding.entries.services.entry import (
    add_entry,
    correct_name,
    edit_entry,
    restore_entry,
    scratch_entry,
    weigh_in,
)
from seeding.entries.services.groups import form_groups, measure, start_groups
from seeding.entries.services.people import (
    add_person,
    add_user,
    found_organisation,
    give_role,
    take_role,
)
from seeding.entries.services.roster import commit_roster, roster_plan
from seeding.entries.services.team import add_team, edit_team
from seeding.entries.services.tournament import (
    add_division,
    add_weight,
    create_tournament,
    edit_tournament,
    edit_weight,
    remove_weight,
    set_gates,
)
from seeding.entries.services.weighing import record_weigh_in

__all__ = [
    "add_division",
    "add_entry",
    "add_person",
    "add_team",
    "add_user",
    "add_weight",
    "add_weight_set",
    "commit_roster",
    "correct_name",
    "create_tournament",
    "edit_division",
    "edit_entry",
    "edit_team",
    "edit_tournament",
    "edit_weight",
    "form_groups",
    "found_organisation",
    "give_role",
    "measure",
    "record_weigh_in",
    "remove_division",
    "remove_weight",
    "restore_entry",
    "roster_plan",
    "scratch_entry",
    "set_gates",
    "start_groups",
    "take_role",
    "weigh_in",
]
