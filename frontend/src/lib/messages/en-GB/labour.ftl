# Labour that an advisor adds to a draft

labour-find = An operation from the list
labour-find-hint = Its code or words of its name. A tap adds it with its own hours.
labour-none = No operation has “{ $q }”. Add it as hours below.
labour-hours-of = { $skill }, { $hours } h
labour-by_hours = Or hours at the rate of a skill
labour-title = Work
labour-hours = Hours
labour-skill = Skill
