using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Interchange.RatePlans.Import;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlanImport;

// Bills of random records, one hour at a time straight from the record, against bills of the rate plans made of them.
public class RateDatabaseAgainstRecordTests
{
    [Fact]
    public void RandomRecords_BilledStraightFromTheRecord_CostTheSame()
    {
        var random = new Random(20_260_301);
        var records = 0;
        for (var i = 0; i < 60; i++)
        {
            var record = JsonNode.Parse(Record(random).ToJsonString())!.AsObject();
            var zone = DateTimeZoneProviders.Tzdb[i % 2 == 0 ? "America/New_York" : "America/Phoenix"];
            var counting = i % 3 == 0 ? TierCounting.ByPeriod : TierCounting.OverAllPeriods;
            var import = RateDatabaseImport.Read(record.ToJsonString(), new() { Zone = zone, Tiers = counting });
            Assert.True(import.IsRead, string.Join("\n", import.Faults) + record.ToJsonString());
            var plan = RatePlanDocument.Read(import.Value.Document.ToJsonString(), import.Value.Id).Value;
            var (from, until) = (new LocalDate(2026, 1, 1).AtStartOfDayInZone(zone).ToInstant(),
                new LocalDate(2027, 1, 1).AtStartOfDayInZone(zone).ToInstant());
            var kwh = Enumerable.Range(0, (int)(until - from).TotalHours).Select(_ => Math.Round(random.NextDouble() * 4, 3)).ToArray();

            var bill = Biller.Bill(plan, MeteredSeries.FromKilowattHours(from, Duration.FromHours(1), kwh));
            for (var m = 0; m < 12; m++)
            {
                Assert.Equal(Month(record, zone, from, kwh, m, counting), bill.Periods[m].Total);
            }

            records++;
        }

        Assert.Equal(60, records);
    }

    private static decimal Month(JsonObject record, DateTimeZone zone, Instant from, double[] kwh, int month, TierCounting counting)
    {
        var structure = record["energyratestructure"]!.AsArray();
        var use = new decimal[structure.Count];
        var byDemand = new Dictionary<int, decimal>();
        decimal all = 0, peak = 0;
        for (var h = 0; h < kwh.Length; h++)
        {
            var local = (from + Duration.FromHours(h)).InZone(zone).LocalDateTime;
            if (local.Month != month + 1)
            {
                continue;
            }

            var row = local.DayOfWeek >= IsoDayOfWeek.Saturday ? "weekend" : "weekday";
            use[(int)record[$"energy{row}schedule"]![month]![local.Hour]!] += (decimal)kwh[h];
            var d = (int)record[$"demand{row}schedule"]![month]![local.Hour]!;
            byDemand[d] = Math.Max(byDemand.GetValueOrDefault(d), (decimal)kwh[h]);
            all += (decimal)kwh[h];
            peak = Math.Max(peak, (decimal)kwh[h]);
        }

        var total = (decimal)record["fixedchargefirstmeter"]! + (all * (decimal)record["fueladjustmentsmonthly"]![month]!);
        var held = Enumerable.Range(0, use.Length).Where(p => Enumerable.Range(0, 24).Any(h =>
            (int)record["energyweekdayschedule"]![month]![h]! == p || (int)record["energyweekendschedule"]![month]![h]! == p)).ToArray();
        var shared = counting == TierCounting.OverAllPeriods && held.Length > 1
            && held.All(p => Limits(structure[p]!).SequenceEqual(Limits(structure[held[0]]!)));
        foreach (var p in held)
        {
            // A shared tier is divided over the periods in proportion to their use.
            var (counted, share) = shared ? (all, all == 0 ? 0 : use[p] / all) : (use[p], 1);
            decimal below = 0;
            foreach (var tier in structure[p]!.AsArray())
            {
                var limit = (decimal?)tier!["max"] ?? decimal.MaxValue;
                total += Math.Max(0, Math.Min(counted, limit) - below) * share * ((decimal)tier["rate"]! + ((decimal?)tier["adj"] ?? 0));
                below = limit;
            }
        }

        total += peak * (decimal)record["flatdemandstructure"]![(int)record["flatdemandmonths"]![month]!]![0]!["rate"]!;
        total += byDemand.Sum(d => d.Value * (decimal)record["demandratestructure"]![d.Key]![0]!["rate"]!);
        total = Math.Max(total, (decimal)record["mincharge"]!);
        return Math.Round(total, 2, MidpointRounding.AwayFromZero);
    }

    private static IEnumerable<decimal?> Limits(JsonNode period) => period.AsArray().Select(t => (decimal?)t!["max"]);

    private static JsonObject Record(Random random)
    {
        var periods = random.Next(1, 7);
        var limits = random.Next(3) == 0 ? [] : Enumerable.Range(1, random.Next(1, 4)).Select(l => l * 200m).ToArray();
        var sameLimits = random.Next(2) == 0;
        var record = Records.Flat();
        record["energyratestructure"] = Records.Structure([.. Enumerable.Range(0, periods).Select(p =>
        {
            var own = sameLimits || p % 2 == 0 ? limits : [.. limits.Select(l => l + 50)];
            return own.Select(l => Records.Tier(Price(), l, Price() / 10)).Append(Records.Tier(Price())).ToArray();
        })]);
        var (summer, peak) = (random.Next(1, 6), random.Next(6, 20));
        int Period(int m, int h) => ((m >= summer && m < summer + 5 ? 1 : 0) + (h >= peak ? 2 : 0) + (m == 11 ? 1 : 0)) % periods;
        record["energyweekdayschedule"] = Records.Matrix(Period);
        record["energyweekendschedule"] = random.Next(2) == 0 ? Records.Matrix(Period) : Records.Matrix((m, _) => Period(m, 0));
        record["fueladjustmentsmonthly"] = new JsonArray([.. Enumerable.Range(0, 12).Select(m =>
            (JsonNode)(random.Next(3) == 0 ? -0.002m : m < 6 ? 0.001m : 0))]);
        record["flatdemandunit"] = "kW";
        record["flatdemandstructure"] = Records.Structure([Records.Tier(random.Next(4))], [Records.Tier(2.5m)]);
        record["flatdemandmonths"] = new JsonArray([.. Enumerable.Range(0, 12).Select(m => (JsonNode)(m is > 4 and < 9 ? 1 : 0))]);
        record["demandrateunit"] = "kW";
        record["demandratestructure"] = Records.Structure([Records.Tier(0)], [Records.Tier(random.Next(1, 9))], [Records.Tier(1.25m)]);
        record["demandweekdayschedule"] = Records.Matrix((m, h) => m is > 3 and < 10 ? (h > peak ? 1 : 0) : h > 6 && h < 10 ? 2 : 0);
        record["demandweekendschedule"] = Records.Matrix((_, _) => 0);
        record["demandwindow"] = 60;
        record["fixedchargefirstmeter"] = random.Next(0, 30);
        record["mincharge"] = random.Next(2) == 0 ? 0 : random.Next(100, 600);
        record["minchargeunits"] = "$/month";
        return record;

        decimal Price() => random.Next(2, 40) / 100m;
    }
}
