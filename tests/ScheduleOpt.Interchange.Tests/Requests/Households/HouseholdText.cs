using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.Tests.Requests.Households;

/// <summary>A good request with two cars and everything that a household may say, to change.</summary>
internal static class HouseholdText
{
    public static JsonObject TwoCars() => (JsonObject)JsonNode.Parse("""
        {
          "asOf": "2026-01-14T17:30:00-06:00",
          "timeZone": "America/Chicago",
          "cars": [
            {
              "name": "Blue",
              "vehicle": { "usableEnergyKwh": 60, "onBoardChargerKw": 11.5, "consumptionKwhPer100Km": 15.5 },
              "supply": { "voltageV": 240, "breakerA": 50, "connection": "hardwired", "rule": "necContinuousLoad" },
              "plugIn": { "stateOfCharge": 0.42 },
              "calendar": { "trips": [ { "departure": "2026-01-15T07:30", "return": "2026-01-15T18:00", "distanceKm": 64 } ] },
              "targetStateOfCharge": 0.7,
              "running": { "mostWindows": 2, "adjustable": false },
              "previous": { "windows": [ { "start": "2026-01-15T01:00", "end": "2026-01-15T04:00", "currentA": 32, "uid": "a@b", "sequence": 2 } ], "expectedStateOfCharge": 0.45 }
            },
            {
              "name": "Small",
              "vehicle": { "usableEnergyKwh": 30, "onBoardChargerKw": 6.6, "consumptionKwhPer100Km": 14 },
              "supply": { "voltageV": 240, "breakerA": 50, "connection": "hardwired", "rule": "necContinuousLoad" },
              "plugIn": { "at": "2026-01-14T20:00", "stateOfCharge": 0.3 },
              "calendar": { "trips": [ { "departure": "2026-01-15T09:00", "return": "2026-01-15T12:00", "distanceKm": 40 } ] },
              "outlet": 2
            }
          ],
          "sharedCircuit": { "breakerA": 50, "rule": "necContinuousLoad" },
          "importLimitKw": 12.5,
          "solar": { "start": "2026-01-14T17:00", "intervalMinutes": 60, "powerKw": [0, 0, 0] },
          "carbon": { "pricePerTonne": "80.00", "gramsPerKwh": { "start": "2026-01-14T17:00", "intervalMinutes": 60, "gramsPerKwh": [400, 300, 300, 500] } },
          "ratePlan": "example-power-day-and-night",
          "weather": { "temperatureC": 5 },
          "houseLoad": { "annualKwh": 9000 },
          "options": {
            "running": { "adjustable": true, "wholeAmperes": true, "mostWindows": 4, "leastOnMinutes": 30, "leastOffMinutes": 15 },
            "finishMarginMinutes": 45,
            "noCharging": [ { "from": "17:00", "until": "21:00", "days": ["monday", "wednesday"] } ],
            "currentLimits": [ { "from": "22:00", "until": "06:00", "currentA": 16 } ],
            "warmUp": { "minutes": 20, "energyKwh": 1.5, "sparedKwh": 0.8, "belowF": 41 },
            "batteryCare": { "chemistry": "lfp" },
            "previous": { "keepUnlessCheaperBy": "0.05" },
            "explain": false,
            "chargingProfile": { "version": "2.0.1", "unit": "W" }
          }
        }
        """)!;
}
