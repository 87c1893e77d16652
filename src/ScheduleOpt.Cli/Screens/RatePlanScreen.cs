using System.Globalization;
using NodaTime;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Shows what was understood of a rate-plan document: its charges, and which period holds in each hour of each month.</summary>
internal sealed class RatePlanScreen(Screen screen, RatePlan plan)
{
    /// <summary>Puts the plan on the page.</summary>
    public void Draw()
    {
        screen.Say($"{plan.Name}, {plan.Utility}: in order.", "bold green");
        if (plan.Description.Length > 0)
        {
            screen.Say(plan.Description);
        }

        screen.Say($"Source: {plan.Source}");
        screen.Say(
            $"Holds from {plan.EffectiveFrom:d MMM uuuu}{(plan.EffectiveUntil is { } u ? $" until {u:d MMM uuuu}" : "")}, "
            + $"{Metered(plan.Metering)}, clock of {plan.Zone.Id}.");
        Charges();
        screen.Blank();
        var grid = PeriodGrid.Of(plan);
        if (plan.Calendar.Periods.Count > 1)
        {
            Calendar(grid.Weekday);
            screen.Blank();
            Calendar(grid.Weekend);
        }
        else
        {
            screen.Say("The same at all hours of every day.");
        }

        Legend(grid);
    }

    private void Calendar(PeriodGridDay day)
    {
        screen.Line(day.Name.PadRight(10) + PeriodGrid.Hours, "bold");
        foreach (var (month, row) in day.Rows)
        {
            screen.Line(month.PadRight(10) + row);
        }
    }

    private void Charges()
    {
        foreach (var charge in plan.CustomerCharges)
        {
            screen.Say($"{charge.Name}: {Figures.Money(charge.Amount, plan.Currency)} {Per(charge.Per)}{(charge.PerServiceKw ? " and kW of the service" : "")}.");
        }

        foreach (var charge in plan.DemandCharges)
        {
            screen.Say(
                $"{charge.Name}: {DemandPrices(charge)} per kW of the highest {charge.AveragingMinutes} min of the billing "
                + $"period{Where(charge.Seasons, charge.Periods)}{(charge.Ratchet is null ? "" : ", with a ratchet")}.");
        }

        if (plan.MinimumBill is { } minimum)
        {
            screen.Say($"Minimum bill: {Figures.Money(minimum.Amount, plan.Currency)} {Per(minimum.Per)}.");
        }

        foreach (var adjustment in plan.Adjustments)
        {
            screen.Say($"{adjustment.Name}: {Prices(adjustment)}{Where(adjustment.Seasons, adjustment.Periods)}.");
        }

        foreach (var tax in plan.Taxes)
        {
            screen.Say($"{tax.Name}: {Figures.Plain((double)tax.Percent)} %.");
        }

        if (plan.Calendar.Holidays.Count > 0)
        {
            screen.Say($"Holidays: {string.Join(", ", plan.Calendar.Holidays.Select(h => h.Name))}.");
        }
    }

    private void Legend(PeriodGrid grid)
    {
        if (plan.PriceSeriesNames.Count > 0)
        {
            screen.Say($"Prices follow what is published hour by hour: {string.Join(", ", plan.PriceSeriesNames)}. They are given beside the plan.");
            foreach (var period in plan.Calendar.Periods.Count > 1 ? plan.Calendar.Periods : [])
            {
                screen.Say($"{grid.LetterOf(period)}  {period}");
            }

            return;
        }

        var table = Columns.Of("", "Period", "Season", "Energy charge", $">In all, {plan.Currency}/kWh");
        foreach (var entry in grid.Legend)
        {
            var charges = plan.EnergyCharges
                .Where(c => Covers(c.Seasons, entry.Season) && Covers(c.Periods, entry.Period))
                .Select(c => $"{Prices(c, entry.Period)}{Dates(c)}");
            table.Row(
                null,
                entry.Letter.ToString(),
                entry.Period,
                plan.Calendar.Seasons.Count > 1 ? $"{entry.Season}, {SeasonDates(entry.Season)}" : "all year",
                string.Join("; ", charges),
                entry.Low == entry.High ? Figures.Price(entry.Low) : $"{Figures.Price(entry.Low)} to {Figures.Price(entry.High)}");
        }

        screen.Draw(table);
        screen.Say(
            "In all: what one more kWh costs in the first block, with adjustments and percentages; "
            + $"in {grid.Year}."
            + (plan.Calendar.Periods.Count > 1
                ? " The calendar shows a Wednesday and a Saturday about the middle of each month that are no holidays."
                : "")
            + (grid.ChangesWithinHour ? " Where a period changes within the hour, the one at its start is shown." : ""));
    }

    private string Prices(EnergyCharge charge, string? period = null)
    {
        var blocks = charge.Blocks.Select(b =>
        {
            var price = period is not null && b.PriceByPeriod is { } by && by.TryGetValue(period, out var p) ? p : b.PricePerKwh;
            return b.UpToKwh is { } limit
                ? $"{Figures.Price(price)} to {Figures.Plain((double)limit)} kWh {Per(charge.LimitPer)}"
                : Figures.Price(price);
        });
        return string.Join(", then ", blocks) + $" {plan.Currency}/kWh";
    }

    private string DemandPrices(DemandCharge charge) => string.Join(", then ", charge.Blocks.Select(b =>
        Figures.Money(b.PricePerKw, plan.Currency) + (b.UpToKw is { } limit ? $" to {Figures.Plain((double)limit)} kW" : "")));

    private static string Per(ChargeUnit unit) => unit switch
    {
        ChargeUnit.Day => "a day",
        ChargeUnit.Year => "a year",
        ChargeUnit.BillingPeriod => "a billing period",
        ChargeUnit.ThirtyDays => "each 30 days",
        ChargeUnit.KilowattHour => "a kWh",
        _ => "a month",
    };

    private string SeasonDates(string name) => string.Join(", ", plan.Calendar.Seasons.First(s => s.Name == name).Ranges
        .Select(r => $"{Day(r.From)} to {Day(r.To)}"));

    private static string Day(AnnualDate date) => date.InYear(2000).ToString("d MMM", CultureInfo.InvariantCulture);

    private static string Dates(EnergyCharge charge) =>
        (charge.From is { } from ? $" from {from:d MMM uuuu}" : "") + (charge.Until is { } until ? $" until {until:d MMM uuuu}" : "");

    private static bool Covers(IReadOnlyList<string> names, string name) => names.Count == 0 || names.Contains(name);

    private static string Where(IReadOnlyList<string> seasons, IReadOnlyList<string> periods) =>
        seasons.Count + periods.Count == 0 ? "" : $" ({string.Join(", ", seasons.Concat(periods))})";

    private static string Metered(Metering metering) => metering switch
    {
        Metering.WholeHouse => "the whole house on one meter",
        Metering.SeparateMeter => "the car on a separate meter",
        _ => "the car on a submeter",
    };
}
