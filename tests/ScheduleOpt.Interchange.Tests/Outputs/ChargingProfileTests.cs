using System.Text.Json;
using NodaTime;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Outputs;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Interchange.Tests.Requests;
using ScheduleOpt.Interchange.Tests.Requests.Households;

namespace ScheduleOpt.Interchange.Tests.Outputs;

public sealed class ChargingProfileTests
{
    public static TheoryData<string, ChargePointProtocol> Versions => new()
    {
        { "1.6", ChargePointProtocol.V16 }, { "2.0.1", ChargePointProtocol.V201 }, { "2.1", ChargePointProtocol.V21 },
    };

    [Theory]
    [MemberData(nameof(Versions))]
    public void Request_OfRandomSchedules_KeepsTheFieldRules(string version, ChargePointProtocol protocol)
    {
        var random = new Random(7);
        foreach (var supply in new[] { """{"voltageV":240,"breakerA":40}""", """{"voltageV":400,"phases":3,"breakerA":32}""", """{"voltageV":120,"breakerA":15}""" })
        {
            for (var i = 0; i < 25; i++)
            {
                var answer = Answers.With(RequestText.Schedule().Set("supply", supply), Draw(random));
                foreach (var unit in Enum.GetValues<ChargingRateUnit>())
                {
                    var profile = ChargingProfileBuilder.Build(answer.Request, answer.Cars[0], new(protocol, unit));
                    using var request = JsonDocument.Parse(ChargingProfileWriter.Write(profile));
                    Assert.Empty(new ProfileRules(version).Broken(request.RootElement));
                    CheckLimits(answer.Cars[0], profile, unit);
                }
            }
        }
    }

    [Fact]
    public void Limits_RoundedDown_HaveTheirEnergyRecomputed()
    {
        // 26.67 A at 240 V for 3.5 h are 22.40 kWh; 26.6 A are 22.344 kWh.
        var profile = Profile(Answers.With(RequestText.Schedule(), [(3, 6.5, 26.67)]), ChargingRateUnit.Amperes);

        Assert.Equal([new(0, 0m), new(10_800, 26.6m), new(23_400, 0m)], profile.Periods);
        Assert.Equal(22.4028, profile.PlannedKwh, 9);
        Assert.Equal(22.344, profile.EnergyKwh, 9);
        Assert.Contains(profile.Notes, n => n.Contains("0.059 kWh less", StringComparison.Ordinal));
        Assert.Equal(50_400, (Answers.Departure - profile.ValidFrom).TotalSeconds);
        Assert.Equal(Answers.Departure, profile.ValidTo);
    }

    [Theory]
    [InlineData(31.9999999999, "32.0")] // Noise of arithmetic.
    [InlineData(6.1, "6.1")]
    [InlineData(6.3, "6.3")]
    [InlineData(6.59, "6.5")]
    [InlineData(5.99, "0.0")] // Below the car's least: off.
    public void Limit_IsWrittenFromDecimal(double amperes, string expected)
    {
        var answer = Answers.With(RequestText.Schedule(), [(0, 1, amperes)]);
        using var request = JsonDocument.Parse(ChargingProfileWriter.Write(Profile(answer, ChargingRateUnit.Amperes)));

        Assert.Equal(expected, request.RootElement.GetProperty("csChargingProfiles").GetProperty("chargingSchedule").GetProperty("chargingSchedulePeriod")[0].GetProperty("limit").GetRawText());
    }

    [Fact]
    public void Watts_AreOfAllPhases_AndPhasesAreSaid()
    {
        var one = Profile(Answers.With(RequestText.Schedule(), [(3, 4, 32)]), ChargingRateUnit.Watts);
        var three = Profile(
            Answers.With(RequestText.Schedule().Set("supply", """{"voltageV":400,"phases":3,"breakerA":40}"""), [(3, 4, 16)]), ChargingRateUnit.Watts);

        Assert.Equal((1, 7680m, 1440m), (one.Phases, one.Periods[1].Limit, one.LeastRate));
        Assert.Equal((3, 11_040m, 4140m), (three.Phases, three.Periods[1].Limit, three.LeastRate));
    }

    [Fact]
    public void Periods_ThatTouchWithTheSameLimit_AreOne()
    {
        var profile = Profile(Answers.With(RequestText.Schedule(), [(0, 1, 32), (1, 2, 32.02), (2, 3, 16)], [(3, 4, 16)]), ChargingRateUnit.Amperes);

        Assert.Equal([new(0, 32m), new(7200, 16m), new(14_400, 0m)], profile.Periods);
    }

    [Fact]
    public void Window_ThatEndsWithTheStay_LeavesNoEmptyLastPeriod()
    {
        var profile = Profile(Answers.With(RequestText.Schedule(), [(13, 14, 32)]), ChargingRateUnit.Amperes);

        Assert.Equal([new(0, 0m), new(46_800, 32m)], profile.Periods);
    }

    [Fact]
    public void NothingToCharge_IsALimitOfZero() =>
        Assert.Equal([new ChargingProfilePeriod(0, 0m)], Profile(Answers.With(RequestText.Schedule()), ChargingRateUnit.Amperes).Periods);

    [Fact]
    public void MorePeriodsThanAllowed_EndInZeroAndSaySo()
    {
        var steps = Enumerable.Range(0, 1400).Select(i => (i / 120.0, (i + 1) / 120.0, 16.0 + (i % 2))).ToArray();
        var profile = Profile(Answers.With(RequestText.Schedule(), steps), ChargingRateUnit.Amperes);

        Assert.Equal(1024, profile.Periods.Count);
        Assert.Equal(0m, profile.Periods[^1].Limit);
        Assert.Equal(1023 * 30, profile.Periods[^1].StartSeconds);
        Assert.Equal(Enumerable.Range(0, 1023).Sum(i => (16 + (i % 2)) * 0.24 / 120), profile.EnergyKwh, 9);
        Assert.Contains(profile.Notes, n => n.Contains("1024 periods", StringComparison.Ordinal));
    }

    [Fact]
    public void Notes_SayThatItIsALimitAndWhatFollows()
    {
        var notes = Profile(Answers.With(RequestText.Schedule(), [(3, 4, 32)]), ChargingRateUnit.Amperes).Notes;

        Assert.Contains(notes, n => n.Contains("limit", StringComparison.Ordinal));
        Assert.Contains(notes, n => n.Contains("2026-01-15T13:30:00Z", StringComparison.Ordinal) && n.Contains("full current at any price", StringComparison.Ordinal));
    }

    [Fact]
    public void Cars_ThatAreListed_HaveTheirOwnOutletsAndNumbers()
    {
        var answer = Answers.To(HouseholdText.TwoCars());
        var profiles = answer.Cars.Select(c => ChargingProfileBuilder.Build(answer.Request, c, answer.Request.Options.ChargingProfile!)).ToArray();

        Assert.Equal([1, 2], profiles.Select(p => p.Outlet));
        Assert.Equal([202601141, 202601152], profiles.Select(p => p.Id));
        Assert.Equal(Instant.FromUtc(2026, 1, 15, 2, 0), profiles[1].ValidFrom);
    }

    private static ChargingProfile Profile(ScheduleAnswer answer, ChargingRateUnit unit) =>
        ChargingProfileBuilder.Build(answer.Request, answer.Cars[0], new(ChargePointProtocol.V16, unit));

    /// <summary>Second by second, a limit is at most what was planned and less than a tenth below it, or off.</summary>
    private static void CheckLimits(CarAnswer car, ChargingProfile profile, ChargingRateUnit unit)
    {
        var perAmpere = unit == ChargingRateUnit.Watts ? car.Car.Supply.VoltsAcrossPhases : 1;
        var energy = 0.0;
        for (var at = profile.ValidFrom; at < profile.ValidTo; at += Duration.FromMinutes(1))
        {
            var limit = (double)profile.Periods.Last(p => p.StartSeconds <= (at - profile.ValidFrom).TotalSeconds).Limit;
            var planned = car.Windows.SelectMany(w => w.Steps).Where(s => s.Start <= at && s.End > at).Sum(s => s.CurrentA) * perAmpere;
            Assert.True(limit <= planned + 1e-5, $"{at}: {limit} is above {planned}");
            Assert.True(limit > planned - 0.1 || planned < (double)profile.LeastRate + 0.1, $"{at}: {limit} is far below {planned}");
            energy += limit / perAmpere * car.Car.Supply.VoltsAcrossPhases / 1000 / 60;
        }

        Assert.Equal(energy, profile.EnergyKwh, 6);
        Assert.True(profile.EnergyKwh <= profile.PlannedKwh + 1e-6);
    }

    private static (double, double, double)[][] Draw(Random random)
    {
        var windows = new List<(double, double, double)[]>();
        for (var at = random.Next(0, 60); at < 14 * 60;)
        {
            var steps = new List<(double, double, double)>();
            for (var n = random.Next(1, 4); n > 0 && at < 14 * 60; n--)
            {
                var end = Math.Min(14 * 60, at + random.Next(1, 120));
                steps.Add((at / 60.0, end / 60.0, random.Next(4) == 0 ? random.Next(6, 33) : 6 + (26 * random.NextDouble())));
                at = end;
            }

            windows.Add([.. steps]);
            at += random.Next(1, 200);
        }

        return [.. windows];
    }
}
