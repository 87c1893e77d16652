using System.Globalization;
using System.Text.Json;

namespace ScheduleOpt.Interchange.Tests.Outputs;

/// <summary>The field rules of a SetChargingProfile request, transcribed by us from the Open Charge Alliance's published description of each version.</summary>
/// <remarks>
/// 1.6: section 6.43 and chapter 7 (ChargingProfile, ChargingSchedule, ChargingSchedulePeriod). 2.0.1 and 2.1: part 2, the data types of the same
/// names. What a version does not name is forbidden; a limit and the least rate are multiples of 0.1; the first period begins at 0; periods rise.
/// </remarks>
internal sealed class ProfileRules(string version)
{
    private readonly List<string> broken = [];

    private bool IsFirst => version == "1.6";

    /// <summary>Every rule that a request breaks.</summary>
    public IReadOnlyList<string> Broken(JsonElement request)
    {
        Members(request, IsFirst ? ["connectorId", "csChargingProfiles"] : ["evseId", "chargingProfile"], []);
        Whole(request, IsFirst ? "connectorId" : "evseId", 0);
        var profile = request.GetProperty(IsFirst ? "csChargingProfiles" : "chargingProfile");
        Members(
            profile,
            [IsFirst ? "chargingProfileId" : "id", "stackLevel", "chargingProfilePurpose", "chargingProfileKind", "chargingSchedule"],
            ["transactionId", "recurrencyKind", "validFrom", "validTo"]);
        Whole(profile, IsFirst ? "chargingProfileId" : "id", IsFirst ? 0 : int.MinValue);
        Whole(profile, "stackLevel", 0);
        OneOf(profile, "chargingProfilePurpose", IsFirst
            ? ["ChargePointMaxProfile", "TxDefaultProfile", "TxProfile"]
            : ["ChargingStationMaxProfile", "ChargingStationExternalConstraints", "TxDefaultProfile", "TxProfile"]);
        OneOf(profile, "chargingProfileKind", ["Absolute", "Recurring", "Relative"]);
        var from = Utc(profile, "validFrom");
        var to = Utc(profile, "validTo");
        Hold(from < to, "validFrom lies before validTo");
        var schedule = profile.GetProperty("chargingSchedule");
        if (!IsFirst)
        {
            Hold(schedule.ValueKind == JsonValueKind.Array && schedule.GetArrayLength() is >= 1 and <= 3, "1 to 3 schedules");
            schedule = schedule[0];
        }

        Schedule(schedule, from, to);
        return broken;
    }

    private void Schedule(JsonElement schedule, DateTimeOffset from, DateTimeOffset to)
    {
        string[] optional = IsFirst ? ["duration", "startSchedule", "minChargingRate"] : version == "2.0.1"
            ? ["startSchedule", "duration", "minChargingRate", "salesTariff"]
            : ["startSchedule", "duration", "minChargingRate", "salesTariff", "useLocalTime", "randomizedDelay", "limitAtSoC", "powerTolerance"];
        Members(schedule, IsFirst ? ["chargingRateUnit", "chargingSchedulePeriod"] : ["id", "chargingRateUnit", "chargingSchedulePeriod"], optional);
        OneOf(schedule, "chargingRateUnit", ["A", "W"]);
        Hold(Utc(schedule, "startSchedule") == from, "an absolute schedule starts with the profile");
        Whole(schedule, "duration", 1);
        Hold(from.AddSeconds(schedule.GetProperty("duration").GetInt64()) == to, "its duration reaches validTo");
        Tenths(schedule, "minChargingRate");
        var periods = schedule.GetProperty("chargingSchedulePeriod").EnumerateArray().ToArray();
        Hold(periods.Length is >= 1 and <= 1024, "1 to 1024 periods");
        Hold(periods[0].GetProperty("startPeriod").GetInt64() == 0, "the first period begins at 0");
        for (var i = 0; i < periods.Length; i++)
        {
            Members(periods[i], ["startPeriod", "limit"], IsFirst ? ["numberPhases"] : ["numberPhases", "phaseToUse"]);
            Whole(periods[i], "startPeriod", 0);
            Tenths(periods[i], "limit");
            Hold(periods[i].GetProperty("numberPhases").GetInt32() is 1 or 3, "1 or 3 phases, said each time");
            Hold(periods[i].GetProperty("startPeriod").GetInt64() < schedule.GetProperty("duration").GetInt64(), "each period begins within the duration");
            if (i > 0)
            {
                Hold(periods[i].GetProperty("startPeriod").GetInt64() > periods[i - 1].GetProperty("startPeriod").GetInt64(), "periods rise");
                Hold(periods[i].GetProperty("limit").GetDecimal() != periods[i - 1].GetProperty("limit").GetDecimal(), "neighbours differ");
            }
        }
    }

    private void Members(JsonElement value, string[] required, string[] optional)
    {
        var names = value.EnumerateObject().Select(p => p.Name).ToArray();
        Hold(required.All(names.Contains), $"{string.Join(", ", required)} are there");
        Hold(names.All(n => required.Contains(n) || optional.Contains(n)), $"nothing but {string.Join(", ", required.Concat(optional))}: {string.Join(", ", names)}");
    }

    private void Whole(JsonElement value, string name, int least) =>
        Hold(value.GetProperty(name).TryGetInt32(out var number) && number >= least, $"{name} is a whole number from {least}");

    private void OneOf(JsonElement value, string name, string[] words) => Hold(words.Contains(value.GetProperty(name).GetString()), $"{name} is a known word");

    // As it stands in the text: one digit after the point, as a decimal number is written.
    private void Tenths(JsonElement value, string name) => Hold(
        System.Text.RegularExpressions.Regex.IsMatch(value.GetProperty(name).GetRawText(), @"\A\d+\.\d\z"), $"{name} has one decimal");

    private DateTimeOffset Utc(JsonElement value, string name)
    {
        var text = value.GetProperty(name).GetString()!;
        Hold(text.EndsWith('Z'), $"{name} is in UTC");
        return DateTimeOffset.Parse(text, CultureInfo.InvariantCulture);
    }

    private void Hold(bool holds, string rule)
    {
        if (!holds)
        {
            broken.Add(rule);
        }
    }
}
