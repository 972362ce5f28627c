#!/usr/bin/env python3
"""Holds the planner against a general-purpose mixed-integer solver (HiGHS, by way of highspy) on small problems.

    python3 -m venv /somewhere && /somewhere/bin/pip install highspy
    cargo build --release --no-default-features
    /somewhere/bin/python tests/against_mixed_integers/compare.py PROGRAM [COUNT]

PROGRAM is the program that the build gives (target/release/foldcourse). COUNT problems (12 unless told) are made from
fixed seeds: two to four strips, one or two mobs, six to ten days. Each is written out as linear constraints on whole
and real variables straight from the planning model's text, solved to a proven optimum, and solved by PROGRAM. Prints
both scores and leaves with 1 where they differ by more than a ten-thousandth. Masses kg DM, areas ha.

What the small problems leave out: days already lived or fixed, spells that run in from before the first day.
"""

import json
import math
import random
import subprocess
import sys
import tempfile
from datetime import date, timedelta

import highspy

FIRST_DAY = date(2027, 5, 1)
WEIGHTS = {"short": 1.0, "lost": 0.05, "walk_per_m": 0.01, "move": 0.5, "bare": 0.2}
AGREE_WITHIN = 1e-4


def problem(seed):
    """A small problem in which ground is scarce enough that every rule bites now and then."""
    dice = random.Random(seed)
    days = dice.randint(6, 10)
    strips = []
    for number in range(dice.randint(2, 4)):
        ceiling = dice.choice([3000, 3400])
        strip = {
            "name": f"S{number}",
            "area_ha": round(dice.uniform(0.1, 0.3), 3),
            "cover": dice.randint(1500, ceiling),
            "leave": dice.choice([1400, 1600]),
            "enter": dice.choice([1800, 2200]),
            "ceiling": ceiling,
            "growth_factor": round(dice.uniform(0.7, 1.2), 2),
            "at": [round(dice.uniform(0, 300), 1), round(dice.uniform(0, 300), 1)],
            "end_cover": dice.choice([1800, 2000]),
        }
        if dice.random() < 0.5:
            strip["rested_days"] = dice.randint(0, 6)
            strip["rest_owed_days"] = dice.randint(2, 8)
        if dice.random() < 0.3:
            closed = dice.randint(0, days - 2)
            strip["closed"] = [[day_text(closed), day_text(closed + 1)]]
        strips.append(strip)
    mobs = []
    for number in range(dice.randint(1, 2)):
        first = dice.randint(0, 1)
        mobs.append(
            {
                "name": f"M{number}",
                "visits": [[day_text(first), day_text(days - 1)]],
                "demand": [[day_text(0), round(dice.uniform(20, 70), 1)]],
                "yard": [round(dice.uniform(-60, 0), 1), 0.0],
            }
        )
    return {
        "model": 1,
        "first_day": day_text(0),
        "days": days,
        "growth": [[day_text(0), 60.0], [day_text(days // 2), 45.0]],
        "rest_days": [[day_text(0), dice.randint(2, 4)]],
        "longest_stay_days": dice.randint(2, 3),
        "strips": strips,
        "mobs": mobs,
        "fixed": [],
        "weights": WEIGHTS,
    }


def day_text(number):
    return (FIRST_DAY + timedelta(days=number)).isoformat()


def day_number(text):
    return (date.fromisoformat(text) - FIRST_DAY).days


def step_value(steps, day):
    return [value for start, value in steps if day_number(start) <= day][-1]


class Programme:
    """The model's text as constraints. One method for each paragraph of it."""

    def __init__(self, made):
        self.made = made
        self.days = range(made["days"])
        self.solver = highspy.Highs()
        self.solver.setOptionValue("output_flag", False)
        for name in ("mip_rel_gap", "mip_abs_gap"):
            self.solver.setOptionValue(name, 0.0)
        for name in ("mip_feasibility_tolerance", "primal_feasibility_tolerance"):
            self.solver.setOptionValue(name, 1e-9)
        self.solver.setOptionValue("time_limit", 300.0)
        self.score = []
        self.lay_stands()
        self.lay_spells()
        for number in range(len(made["strips"])):
            self.lay_cover(number)
        for number in range(len(made["mobs"])):
            self.lay_walks(number)

    def real(self, upper=highspy.kHighsInf):
        return self.solver.addVariable(lb=0.0, ub=upper)

    def lay_stands(self):
        """R1, R2, and one place for each mob on each day of its visit; the yard has the number after the strips'."""
        strips = self.made["strips"]
        self.yard = len(strips)
        self.stands = {}
        for number, mob in enumerate(self.made["mobs"]):
            first, last = (day_number(text) for text in mob["visits"][0])
            for day in range(first, last + 1):
                places = [self.solver.addBinary() for _ in range(len(strips) + 1)]
                self.solver.addConstr(sum(places) == 1)
                self.stands[number, day] = places
        self.occupied = {}
        for strip, facts in enumerate(strips):
            for day in self.days:
                here = [row[strip] for (_, at), row in self.stands.items() if at == day]
                taken = self.solver.addBinary()
                self.solver.addConstr(taken == (sum(here) if here else 0.0))
                if self.is_closed(facts, day):
                    self.solver.addConstr(taken == 0.0)
                self.occupied[strip, day] = taken

    @staticmethod
    def is_closed(strip, day):
        spans = strip.get("closed", [])
        return any(day_number(first) <= day <= day_number(last) for first, last in spans)

    def lay_spells(self):
        """R3 and R4."""
        longest = self.made["longest_stay_days"]
        n_days = self.made["days"]
        for strip, facts in enumerate(self.made["strips"]):
            taken = [self.occupied[strip, day] for day in self.days]
            for day in range(n_days - longest):
                self.solver.addConstr(sum(taken[day : day + longest + 1]) <= longest)
            for last in range(n_days - 2):
                rest = step_value(self.made["rest_days"], last)
                for first in range(last + 2, n_days):
                    if first - last - 1 < rest:
                        self.solver.addConstr(taken[last] - taken[last + 1] + taken[first] <= 1)
            owed = facts.get("rest_owed_days", 0) if "rested_days" in facts else 0
            for day in self.days:
                if facts.get("rested_days", 0) + day < owed:
                    self.solver.addConstr(taken[day] == 0.0)

    def either_least(self, one, other, most):
        """A variable that is the lesser of two expressions, both between 0 and `most` or so."""
        least, is_other = self.real(), self.solver.addBinary()
        self.solver.addConstr(least <= one)
        self.solver.addConstr(least <= other)
        self.solver.addConstr(least >= one - most * is_other)
        self.solver.addConstr(least >= other - most * (1 - is_other))
        return least

    def above(self, value, most):
        """A variable that is what an expression has above 0."""
        above, is_above = self.real(), self.solver.addBinary()
        self.solver.addConstr(above >= value)
        self.solver.addConstr(above <= value + most * (1 - is_above))
        self.solver.addConstr(above <= most * is_above)
        return above

    def lay_cover(self, number):
        """A strip's days: R5, eaten, short, growth, lost, bare."""
        strip, made = self.made["strips"][number], self.made
        area, most = strip["area_ha"], 2.0 * strip["ceiling"]
        cover = self.real(strip["ceiling"])
        self.solver.addConstr(cover == float(strip["cover"]))
        for day in self.days:
            before = self.occupied[number, day - 1] if day else 0.0
            begins = self.occupied[number, day] - before
            self.solver.addConstr(cover >= strip["enter"] - most * (1 - begins))
            wanted = sum(
                (made_demand(made["mobs"][mob], at) / area) * row[number]
                for (mob, at), row in self.stands.items()
                if at == day
            )
            growth = step_value(made["growth"], day) * strip["growth_factor"]
            eaten = 0.0
            if any(at == day for _, at in self.stands):
                eaten = self.either_least(wanted, self.above(cover - strip["leave"], most), most)
                self.score.append(-WEIGHTS["short"] * area * eaten)
            kept = self.either_least(growth + 0.0 * cover, strip["ceiling"] - cover + eaten, most)
            if not self.is_closed(strip, day):
                self.score.append(WEIGHTS["lost"] * area * (growth - kept))
            following = self.real(strip["ceiling"])
            self.solver.addConstr(following == cover - eaten + kept)
            cover = following
        bare = self.real()
        self.solver.addConstr(bare >= strip["end_cover"] - cover)
        self.score.append(WEIGHTS["bare"] * area * bare)

    def lay_walks(self, number):
        """A mob's walks, and its whole demand as short, of which what is eaten has been taken off."""
        mob = self.made["mobs"][number]
        spots = [strip["at"] for strip in self.made["strips"]] + [mob["yard"]]
        first = day_number(mob["visits"][0][0])
        days = [day for at, day in self.stands if at == number]
        for day in days:
            self.score.append(WEIGHTS["short"] * made_demand(mob, day))
            for to, goes in enumerate(self.stands[number, day]):
                for come, spot in enumerate(spots):
                    if come == to or (day == first and come != self.yard):
                        continue
                    stood = 1.0 if day == first else self.stands[number, day - 1][come]
                    walks = self.real()
                    self.solver.addConstr(walks >= stood + goes - 1)
                    cost = WEIGHTS["walk_per_m"] * math.dist(spot, spots[to]) + WEIGHTS["move"]
                    self.score.append(cost * walks)

    def optimum(self):
        """The least score, or nothing where it was not proven in time."""
        self.solver.minimize(sum(self.score))
        is_proven = self.solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
        return self.solver.getInfo().objective_function_value if is_proven else None


def made_demand(mob, day):
    return step_value(mob["demand"], day)


def planned(program, made):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(made, file)
        file.flush()
        told = subprocess.run([program, "solve", file.name], capture_output=True, text=True, check=True)
    return json.loads(told.stdout)["score"]


def main():
    program = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 12
    n_agreed = n_proven = 0
    for seed in range(1, count + 1):
        made = problem(seed)
        ours, theirs = planned(program, made), Programme(made).optimum()
        size = f"{len(made['strips'])} strips, {len(made['mobs'])} mobs, {made['days']} days"
        if theirs is None:
            print(f"{seed:3}  {size}: ours {ours:.4f}, not proven in time")
            continue
        n_proven += 1
        agrees = abs(ours - theirs) <= AGREE_WITHIN * max(1.0, abs(theirs))
        n_agreed += agrees
        print(f"{seed:3}  {size}: ours {ours:.4f}, theirs {theirs:.4f}{'' if agrees else '  DIFFER'}", flush=True)
    print(f"{n_agreed} of {n_proven} proven optima agree; {count - n_proven} not proven in time")
    sys.exit(0 if n_agreed == n_proven and n_proven > 0 else 1)


main()
