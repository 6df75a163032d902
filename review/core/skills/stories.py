"""Little scenes for one-step problems: a farm, a lighthouse, a kitchen, with invented things only.

`{a}` and `{b}` are the numbers of a showing, always two or more. A line is one sentence of under 8 words.
"""

from collections.abc import Mapping
from typing import NamedTuple


class Story(NamedTuple):
    lines: tuple[str, ...]
    question: str
    unit: str  # what the answer counts, several of it


STORIES: Mapping[str, Mapping[str, Story]] = {
    # --- change: something comes or goes
    "join-result": {
        "farm": Story(
            ("{a} hens sit in the yard.", "{b} more hens come in."), "How many hens are there now?", "hens"
        ),
        "lighthouse": Story(
            ("{a} gulls sit on the rail.", "{b} more gulls land there."),
            "How many gulls are there now?",
            "gulls",
        ),
        "kitchen": Story(
            ("{a} buns lie on a tray.", "You add {b} more buns."), "How many buns are there now?", "buns"
        ),
    },
    "take-result": {
        "farm": Story(
            ("{a} ducks swim on the pond.", "{b} ducks walk off."), "How many ducks swim now?", "ducks"
        ),
        "lighthouse": Story(
            ("{a} candles lie in a box.", "The keeper burns {b} of them."),
            "How many candles are left?",
            "candles",
        ),
        "kitchen": Story(
            ("{a} plums lie in a bowl.", "We eat {b} plums."), "How many plums are left?", "plums"
        ),
    },
    "join-change": {
        "farm": Story(
            ("{a} sheep stand at the gate.", "More sheep come.", "Now there are {b} sheep."),
            "How many sheep came?",
            "sheep",
        ),
        "lighthouse": Story(
            ("{a} boats lie in the bay.", "More boats come in.", "Now there are {b} boats."),
            "How many boats came in?",
            "boats",
        ),
        "kitchen": Story(
            ("{a} pears lie in a basket.", "You add some pears.", "Now there are {b} pears."),
            "How many pears did you add?",
            "pears",
        ),
    },
    "take-change": {
        "farm": Story(
            ("{a} geese graze in a field.", "Some geese fly away.", "Now {b} geese graze there."),
            "How many geese flew away?",
            "geese",
        ),
        "lighthouse": Story(
            ("{a} ropes hang on hooks.", "A sailor takes some ropes.", "Now {b} ropes hang there."),
            "How many ropes did the sailor take?",
            "ropes",
        ),
        "kitchen": Story(
            ("{a} rolls lie in a bag.", "We eat some rolls.", "Now {b} rolls are left."),
            "How many rolls did we eat?",
            "rolls",
        ),
    },
    "join-start": {
        "farm": Story(
            ("Some goats stand on a hill.", "{a} more goats climb up.", "Now there are {b} goats."),
            "How many goats were there at first?",
            "goats",
        ),
        "lighthouse": Story(
            ("Some shells lie on the sill.", "You bring {a} more shells.", "Now there are {b} shells."),
            "How many shells were there at first?",
            "shells",
        ),
        "kitchen": Story(
            ("Some spoons lie in a drawer.", "You put in {a} more spoons.", "Now there are {b} spoons."),
            "How many spoons were there at first?",
            "spoons",
        ),
    },
    "take-start": {
        "farm": Story(
            ("Some eggs lie in a nest.", "You take {a} eggs out.", "Now {b} eggs are left."),
            "How many eggs were there at first?",
            "eggs",
        ),
        "lighthouse": Story(
            ("Some lamps burn on the stairs.", "{a} lamps go out.", "Now {b} lamps burn."),
            "How many lamps burned at first?",
            "lamps",
        ),
        "kitchen": Story(
            ("Some nuts lie in a jar.", "We eat {a} nuts.", "Now {b} nuts are left."),
            "How many nuts were there at first?",
            "nuts",
        ),
    },
    # --- combine: parts and a whole, nothing happens
    "combine-total": {
        "farm": Story(
            ("{a} cows are brown.", "{b} cows are black."), "How many cows are there in all?", "cows"
        ),
        "lighthouse": Story(
            ("{a} steps are of stone.", "{b} steps are of wood."), "How many steps are there in all?", "steps"
        ),
        "kitchen": Story(
            ("{a} cups are blue.", "{b} cups are green."), "How many cups are there in all?", "cups"
        ),
    },
    "combine-part": {
        "farm": Story(
            ("{a} rabbits are black or white.", "{b} of the rabbits are black."),
            "How many rabbits are white?",
            "rabbits",
        ),
        "lighthouse": Story(
            ("{a} flags are red or white.", "{b} of the flags are red."), "How many flags are white?", "flags"
        ),
        "kitchen": Story(
            ("{a} apples are red or yellow.", "{b} of the apples are red."),
            "How many apples are yellow?",
            "apples",
        ),
    },
    # --- compare: two amounts side by side
    "compare-difference": {
        "farm": Story(
            ("{a} carrots grow in one bed.", "{b} carrots grow in the next."),
            "How many more grow in the first?",
            "carrots",
        ),
        "lighthouse": Story(
            ("{a} crabs sit on one rock.", "{b} crabs sit on the next."),
            "How many more sit on the first?",
            "crabs",
        ),
        "kitchen": Story(
            ("{a} cakes are round.", "{b} cakes are square."), "How many more cakes are round?", "cakes"
        ),
    },
    "compare-more": {
        "farm": Story(
            ("The white flock has {a} lambs.", "The black flock has {b} more."),
            "How many lambs has the black flock?",
            "lambs",
        ),
        "lighthouse": Story(
            ("The old boat has {a} oars.", "The new boat has {b} more."),
            "How many oars has the new boat?",
            "oars",
        ),
        "kitchen": Story(
            ("The small jar has {a} beans.", "The tall jar has {b} more."),
            "How many beans has the tall jar?",
            "beans",
        ),
    },
    "compare-fewer": {
        "farm": Story(
            ("The red bed has {a} tulips.", "The white bed has {b} fewer."),
            "How many tulips has the white bed?",
            "tulips",
        ),
        "lighthouse": Story(
            ("The east wall has {a} windows.", "The west wall has {b} fewer."),
            "How many windows has the west wall?",
            "windows",
        ),
        "kitchen": Story(
            ("The round pie has {a} cherries.", "The square pie has {b} fewer."),
            "How many cherries has the square pie?",
            "cherries",
        ),
    },
    # --- equal groups and sharing
    "groups": {
        "farm": Story(
            ("There are {a} nests.", "Each nest has {b} eggs."), "How many eggs are there?", "eggs"
        ),
        "lighthouse": Story(
            ("{a} boats come in.", "Each boat brings {b} sacks."), "How many sacks are there?", "sacks"
        ),
        "kitchen": Story(
            ("You fill {a} bags.", "Each bag gets {b} biscuits."), "How many biscuits is that?", "biscuits"
        ),
    },
    "share": {
        "farm": Story(
            ("{a} bales go to {b} barns.", "Each barn gets the same."),
            "How many bales does a barn get?",
            "bales",
        ),
        "lighthouse": Story(
            ("{a} lamps hang on {b} floors.", "Each floor has the same."),
            "How many lamps has one floor?",
            "lamps",
        ),
        "kitchen": Story(
            ("You share {a} grapes among {b} bowls.", "Each bowl gets the same."),
            "How many grapes does a bowl get?",
            "grapes",
        ),
    },
    "measure": {
        "farm": Story(
            ("You pack {a} eggs into boxes.", "Each box takes {b} eggs."), "How many boxes are full?", "boxes"
        ),
        "lighthouse": Story(
            ("{a} guests climb the tower.", "They climb in groups of {b}."),
            "How many groups are there?",
            "groups",
        ),
        "kitchen": Story(
            ("You lay out {a} dumplings.", "Each plate gets {b} dumplings."),
            "How many plates do you need?",
            "plates",
        ),
    },
    # --- what becomes of the rest
    "rest-over": {
        "farm": Story(
            ("You pack {a} eggs into boxes.", "Each box takes {b} eggs.", "You fill all you can."),
            "How many eggs are left over?",
            "eggs",
        ),
        "lighthouse": Story(
            ("You cut {a} metres of rope.", "Each piece takes {b} metres.", "You cut all you can."),
            "How many metres are left over?",
            "metres",
        ),
        "kitchen": Story(
            ("You put {a} buns into bags.", "Each bag takes {b} buns.", "You fill all you can."),
            "How many buns are left over?",
            "buns",
        ),
    },
    "rest-full": {
        "farm": Story(
            ("You have {a} apples for crates.", "A full crate takes {b} apples."),
            "How many crates can you fill?",
            "crates",
        ),
        "lighthouse": Story(
            ("You have {a} metres of rope.", "A ladder needs {b} metres."),
            "How many ladders can you make?",
            "ladders",
        ),
        "kitchen": Story(
            ("You have {a} cups of flour.", "One loaf needs {b} cups."),
            "How many loaves can you bake?",
            "loaves",
        ),
    },
    "rest-needed": {
        "farm": Story(
            ("{a} hens need a place to sleep.", "A hen house takes {b} hens."),
            "How many houses do they need?",
            "houses",
        ),
        "lighthouse": Story(
            ("{a} sailors must cross the bay.", "A boat takes {b} sailors."),
            "How many boats do they need?",
            "boats",
        ),
        "kitchen": Story(
            ("{a} guests want to sit down.", "A table seats {b} guests."),
            "How many tables do they need?",
            "tables",
        ),
    },
}
