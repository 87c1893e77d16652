namespace ScheduleOpt.Scheduling.Tests;

public class IntervalHeapTests
{
    [Fact]
    public void BothEnds_AgainstASortedList_AreTheSame()
    {
        for (var seed = 0; seed < 300; seed++)
        {
            var random = new Random(seed);
            var heap = new IntervalHeap();
            var naive = new List<(double Key, int Later)>();
            for (var step = 0; step < 400; step++)
            {
                if (naive.Count == 0 || random.Next(100) < 55)
                {
                    var key = random.Next(1 + (seed % 40));
                    heap.Add(key, step);
                    naive.Add((key, -step));
                    naive.Sort();
                }
                else if (random.Next(2) == 0)
                {
                    heap.RemoveCheapest();
                    naive.RemoveAt(0);
                }
                else
                {
                    heap.RemoveDearest();
                    naive.RemoveAt(naive.Count - 1);
                }

                Assert.Equal(naive.Count, heap.Count);
                if (naive.Count > 0)
                {
                    Assert.Equal((naive[0].Key, -naive[0].Later), heap.Cheapest);
                    Assert.Equal((naive[^1].Key, -naive[^1].Later), heap.Dearest);
                }
            }
        }
    }
}
