using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>carriedState</c>: what the answer to the bill before gave under the same name.</summary>
internal static class CarriedStateReader
{
    private const int MostPeaks = 2000;
    private const int MostGroups = 50;
    private static readonly Limits Kw = new(0, 1e9, "kW");
    private static readonly Limits Kwh = new(0, 1e9, "kWh");
    private static readonly Limits Credit = new(0, 1e12, "of the currency");
    private static readonly YearMonthPattern Month = YearMonthPattern.CreateWithInvariantCulture("uuuu'-'MM");

    /// <summary>Reads the state; it must be one that the plan can have.</summary>
    /// <param name="maybe">The object.</param>
    /// <param name="clock">The clock of local times.</param>
    /// <param name="plan">The plan; none where it is faulty: names are not judged then.</param>
    public static BillState Read(JsonField? maybe, DocumentClock clock, RatePlan? plan)
    {
        if (maybe?.Members("peaks", "bankedEnergy", "creditBank", "recentUse") is not { } state)
        {
            return BillState.Empty;
        }

        return new()
        {
            Peaks = [.. (state.Optional("peaks")?.Items(0, MostPeaks, "peaks") ?? []).Select(p => Peak(p, plan)).OfType<PastPeak>()],
            BankMicroKwh = state.Optional("bankedEnergy") is { } banked ? Banked(banked, plan) : new Dictionary<string, long>(),
            CreditBank = state.Optional("creditBank") is { } bank ? CreditBank(bank, plan) : 0,
            RecentUse = state.Optional("recentUse") is { } use ? MeteredSeriesReader.Read(use, clock) : null,
        };
    }

    private static PastPeak? Peak(JsonField field, RatePlan? plan)
    {
        if (field.Members("charge", "month", "kw") is not { } peak)
        {
            return null;
        }

        var charge = peak.Required("charge")?.Text(100);
        var kw = peak.Required("kw", Kw.ToString())?.Exact(Kw);
        var month = peak.Required("month") is { } at ? MonthOf(at) : null;
        if (charge is not null && plan is not null && plan.DemandCharges.All(d => d.Name != charge))
        {
            peak.Faults.Add(
                peak.Pointer("charge"),
                plan.DemandCharges.Count == 0 ? "The rate plan has no demand charge." : $"Must be a demand charge of the rate plan: {string.Join(", ", plan.DemandCharges.Select(d => d.Name))}.",
                JsonField.Shortened(charge));
        }

        return charge is not null && kw is { } power && month is { } billed ? new(charge, billed.Year, billed.Month, power) : null;
    }

    private static YearMonth? MonthOf(JsonField field)
    {
        if (field.Element.ValueKind == System.Text.Json.JsonValueKind.String
            && Month.Parse(field.Element.GetString()!) is { Success: true } month && month.Value.Year is >= 1970 and < 2100)
        {
            return month.Value;
        }

        field.Fault("Must be a billing month such as 2026-01, from 1970 to 2099.");
        return null;
    }

    private static Dictionary<string, long> Banked(JsonField field, RatePlan? plan)
    {
        var banks = new Dictionary<string, long>();
        var items = field.Items(0, MostGroups, "banks") ?? [];
        if (items.Count > 0 && plan is not null && plan.Export?.Kind != ExportKind.NetMetering)
        {
            field.Fault("The rate plan banks no energy: it has no net metering.");
        }

        foreach (var item in items)
        {
            if (item.Members("period", "energyKwh") is not { } bank)
            {
                continue;
            }

            // Without a period: the pool.
            var period = bank.Optional("period")?.Text(100) ?? "";
            if (plan?.Export is { Kind: ExportKind.NetMetering } rule)
            {
                CheckPeriod(bank, period, rule, plan);
            }

            if (bank.Required("energyKwh", Kwh.ToString())?.Exact(Kwh) is { } kwh
                && !banks.TryAdd(period, (long)decimal.Round(kwh * MeteredSeries.UnitsPerKilowattHour, MidpointRounding.AwayFromZero)))
            {
                item.Fault("Each bank may be given once.");
            }
        }

        return banks;
    }

    private static void CheckPeriod(JsonMembers bank, string period, ExportRule rule, RatePlan plan)
    {
        if (!rule.BankByPeriod && bank.Has("period"))
        {
            bank.Faults.Add(bank.Pointer("period"), "Must be left out: the rate plan banks the energy of all periods together.", JsonField.Shortened(period));
        }
        else if (rule.BankByPeriod && !plan.Calendar.Periods.Contains(period))
        {
            bank.Faults.Add(bank.Pointer("period"), $"Must be a period of the rate plan: {string.Join(", ", plan.Calendar.Periods)}.", JsonField.Shortened(period));
        }
    }

    private static decimal CreditBank(JsonField field, RatePlan? plan)
    {
        if (field.Exact(Credit) is not { } credit)
        {
            return 0;
        }

        if (credit != 0 && plan is not null && plan.Export is not { Kind: ExportKind.NetBilling, CreditUse: not CreditUse.ThisBill })
        {
            field.Fault("The rate plan banks no credit from one bill to the next.");
        }

        return credit;
    }
}
