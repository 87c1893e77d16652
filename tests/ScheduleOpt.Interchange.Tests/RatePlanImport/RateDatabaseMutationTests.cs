using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Interchange.RatePlans.Import;
using ScheduleOpt.Interchange.Tests.Meters;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlanImport;

// Records with slips or malice: a rate plan that can be billed, or faults; never an exception, within bounds of memory.
public class RateDatabaseMutationTests
{
    [Theory]
    [InlineData(1, false)]
    [InlineData(2, true)]
    public void MutatedRecord_IsARatePlanOrFaults(int seed, bool rich)
    {
        var text = (rich ? Records.Rich() : Records.Flat()).ToJsonString();
        var zone = DateTimeZoneProviders.Tzdb["America/Denver"];
        var load = MeteredSeries.FromKilowattHours(Instant.FromUtc(2026, 3, 6, 7, 0), Duration.FromHours(1), Enumerable.Repeat(1.0, 24 * 40).ToArray());
        var random = new Random(seed);
        int plans = 0, refused = 0;
        for (var i = 0; i < 600; i++)
        {
            var mutated = Mutation.Of(text, random);
            var before = GC.GetAllocatedBytesForCurrentThread();
            var reading = RateDatabaseImport.Read(mutated, new() { Zone = zone, Tiers = (TierCounting)(i % 2) });
            Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 200L * 1024 * 1024, mutated);
            if (reading.IsRead)
            {
                plans++;
                var plan = RatePlanDocument.Read(reading.Value.Document.ToJsonString(), reading.Value.Id).Value;
                Assert.NotEmpty(Biller.Bill(plan, load).Periods);
            }
            else
            {
                refused++;
                Assert.All(reading.Faults, f => Assert.StartsWith("#", f.Pointer, StringComparison.Ordinal));
                Assert.All(reading.Faults, f => Assert.NotEmpty(f.Rule));
            }
        }

        Assert.True(plans > 0 && refused > 0, $"{plans} plans, {refused} refused");
    }
}
