using ScheduleOpt.Tariffs.Choices;

namespace ScheduleOpt.Tariffs;

/// <summary>Checks that a charge in multiples of an allowance has one amount for all seasons that it covers, under every combination of choices.</summary>
internal static class AllowanceCheck
{
    public static IEnumerable<PlanFault> Faults(RatePlan plan)
    {
        foreach (var (charge, section, i) in plan.EnergyCharges.Select((c, i) => (c, "/energyCharges", i)).Concat(plan.Adjustments.Select((c, i) => (c, "/adjustments", i))))
        {
            var path = charge.Place?.Path ?? $"{section}/{i}";
            if (!charge.Blocks.Any(b => b.UpToAllowance is not null))
            {
                continue;
            }

            if (charge.Calendar is not null)
            {
                yield return new($"{path}/calendar", "Limits by allowance go with the seasons of the plan's own calendar.", charge.Calendar);
                continue;
            }

            var allowance = plan.Allowances.FirstOrDefault(a => a.Name == charge.Allowance);
            if (allowance is null)
            {
                yield return new($"{path}/allowance", "A charge with upToAllowance must name one of the allowances.", charge.Allowance ?? "none");
                continue;
            }

            foreach (var taken in PlanChoices.All(plan).Where(t => charge.When?.HoldsFor(t) != false))
            {
                var amounts = plan.Calendar.Seasons.Where(s => charge.CoversSeason(s.Name)).Select(s => allowance.In(s.Name, taken).ToArray()).ToArray();
                if (amounts.Any(a => a.Length != 1) || amounts.Select(a => a[0].Kwh).Distinct().Count() != 1)
                {
                    yield return new(
                        $"{path}/allowance",
                        "The allowance must have exactly one amount for all seasons that the charge covers; write a charge for each where they differ.",
                        $"{string.Join(", ", taken.Select(t => $"{t.Key} {t.Value}"))}: {string.Join(", ", amounts.Select(a => a.Length == 1 ? $"{a[0].Kwh}" : $"{a.Length} amounts"))}");
                    break;
                }
            }
        }
    }
}
