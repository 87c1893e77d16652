using System.Text.Json;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes <c>carriedState</c>: what the next bill on the same plan needs to know, in the form in which requests take it.</summary>
internal static class CarriedStateWriter
{
    /// <summary>Writes the state; what the plan does not carry is left out.</summary>
    public static void Write(Utf8JsonWriter json, BillState state, RatePlan plan)
    {
        json.WriteStartObject("carriedState");
        if (state.Peaks.Count > 0)
        {
            json.WriteStartArray("peaks");
            foreach (var peak in state.Peaks)
            {
                json.WriteStartObject();
                json.WriteString("charge", peak.Charge);
                json.WriteString("month", FormattableString.Invariant($"{peak.Year:0000}-{peak.Month:00}"));
                json.WriteExact("kw", peak.Kw);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        WriteBanks(json, state, plan);
        if (state.RecentUse is { } recent)
        {
            json.WriteStartObject("recentUse");
            json.WriteTime("start", recent.Start, plan.Zone);
            json.WriteNumber("intervalMinutes", (int)recent.Interval.TotalMinutes);
            json.WriteStartArray("energyKwh");
            foreach (var unit in recent.MicroKilowattHours)
            {
                json.WriteNumberValue(unit / (decimal)MeteredSeries.UnitsPerKilowattHour);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static void WriteBanks(Utf8JsonWriter json, BillState state, RatePlan plan)
    {
        if (plan.Export is { Kind: ExportKind.NetMetering })
        {
            json.WriteStartArray("bankedEnergy");
            foreach (var (period, bank) in state.BankMicroKwh.OrderBy(b => b.Key, StringComparer.Ordinal))
            {
                json.WriteStartObject();
                if (period.Length > 0)
                {
                    json.WriteString("period", period);
                }

                json.WriteExact("energyKwh", bank / (decimal)MeteredSeries.UnitsPerKilowattHour);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        if (plan.Export is { Kind: ExportKind.NetBilling, CreditUse: not CreditUse.ThisBill })
        {
            json.WriteExact("creditBank", state.CreditBank);
        }
    }
}
