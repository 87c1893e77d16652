using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs;

/// <summary>Checks that each use has exactly one price in each layer, and that nothing covers nothing. For a plan whose choices are made.</summary>
internal static class PriceCoverage
{
    public static void Add(List<PlanFault> faults, RatePlan plan)
    {
        var cells = new Dictionary<RateCalendar, HashSet<(int Season, int Period)>>();
        AddCalendar(faults, plan, null, plan.Calendar, "", cells);
        foreach (var ((name, calendar), i) in plan.Calendars.Select((c, i) => (c, i)))
        {
            AddCalendar(faults, plan, name, calendar, $"/calendars/{i}", cells);
        }

        AddUncovering(faults, plan, plan.EnergyCharges, "/energyCharges", cells);
        AddUncovering(faults, plan, plan.Adjustments, "/adjustments", cells);
        AddUncovering(faults, plan, plan.DemandCharges, "/demandCharges", cells);
        AddUncovering(faults, plan, plan.Credits, "/credits", cells);
        if (plan.EnergyCharges.Count == 0)
        {
            faults.Add(new("/energyCharges", "There must be an energy charge under every combination of choices.", "none under one of them"));
        }

        foreach (var layer in plan.EnergyCharges.GroupBy(c => c.Layer))
        {
            AddLayer(faults, plan, layer.Key, [.. layer], cells);
        }
    }

    private static void AddCalendar(
        List<PlanFault> faults, RatePlan plan, string? name, RateCalendar calendar, string path, Dictionary<RateCalendar, HashSet<(int, int)>> cells)
    {
        var occurring = CalendarCoverage.Cells(calendar);
        foreach (var definition in plan.Events.Where(e => e.Calendar == name && e.Period is not null))
        {
            var period = calendar.Periods.IndexWhere(p => p == definition.Period);
            occurring.UnionWith(occurring.Select(c => c.Season).Distinct().ToArray().Select(season => (season, period)));
        }

        // A period that never holds is a slip of the pen.
        for (var p = 0; p < calendar.Periods.Count; p++)
        {
            if (!occurring.Any(c => c.Period == p))
            {
                faults.Add(new($"{path}/periods/{p}", "Each period must hold at some time: no window or event gives it, or others come before.", calendar.Periods[p]));
            }
        }

        cells[calendar] = occurring;
    }

    private static void AddUncovering(
        List<PlanFault> faults, RatePlan plan, IReadOnlyList<Scope> charges, string section, Dictionary<RateCalendar, HashSet<(int Season, int Period)>> cells)
    {
        for (var i = 0; i < charges.Count; i++)
        {
            var (charge, calendar) = (charges[i], plan.CalendarOf(charges[i]));
            if (!cells[calendar].Any(c => charge.CoversSeason(calendar.Seasons[c.Season].Name) && charge.CoversPeriod(calendar.Periods[c.Period])))
            {
                faults.Add(new(charge.Place?.Path ?? $"{section}/{i}", "A charge must cover a season and period that occur together.", string.Join(", ", charge.Seasons.Concat(charge.Periods))));
            }
        }
    }

    /// <summary>Each season and period that occurs needs exactly one energy charge of the layer on each date and in each billing season.</summary>
    private static void AddLayer(
        List<PlanFault> faults, RatePlan plan, string layer, EnergyCharge[] charges, Dictionary<RateCalendar, HashSet<(int Season, int Period)>> cells)
    {
        if (charges.Select(c => c.Calendar).Distinct().Count() > 1)
        {
            faults.Add(new("/energyCharges", "All energy charges of one layer must have the same calendar.", $"layer {layer}"));
            return;
        }

        var calendar = plan.CalendarOf(charges[0]);
        LocalDate?[] slices = [null, .. charges.SelectMany(c => new[] { c.From, c.Until?.PlusDays(1) }).OfType<LocalDate>().Distinct().Order().Cast<LocalDate?>()];
        string?[] billingSeasons = plan.BillingSeasons.Count == 0 ? [null] : [.. plan.BillingSeasons.Select(s => s.Name)];
        foreach (var (season, period) in cells[calendar].Order())
        {
            var (seasonName, periodName) = (calendar.Seasons[season].Name, calendar.Periods[period]);
            var covering = charges.Where(c => c.CoversSeason(seasonName) && c.CoversPeriod(periodName)).ToArray();
            foreach (var (slice, billingSeason) in slices.SelectMany(s => billingSeasons.Select(b => (s, b))))
            {
                var count = covering.Count(c => c.CoversSliceFrom(slice) && c.CoversBillingSeason(billingSeason));
                if (count != 1)
                {
                    faults.Add(new(
                        "/energyCharges",
                        "Each season and period must have exactly one energy charge of each layer on each date; what comes on top is an adjustment.",
                        $"season {seasonName}, period {periodName}{(layer == EnergyCharge.DefaultLayer ? "" : $", layer {layer}")}"
                            + $"{(billingSeason is null ? "" : $", billing season {billingSeason}")}{(slice is { } s ? $", from {s:uuuu-MM-dd}" : "")}: {count}"));
                    break;
                }
            }
        }
    }
}
